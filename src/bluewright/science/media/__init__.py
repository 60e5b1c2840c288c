"""What stages share: the basket of leaf, the tub and its heat, water, acids and bases, oxygen, ammonia.

The question each module answers stands at its head. A thing may live here if two stages need it; it may import
`base` only, and never a stage.
"""
