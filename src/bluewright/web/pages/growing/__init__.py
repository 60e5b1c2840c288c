"""The growth of a bed: its next cut, how thick it stands, what is spotted or eaten."""
