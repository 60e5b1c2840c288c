"""The kit: what was bought for years, whose price is shared over them."""
