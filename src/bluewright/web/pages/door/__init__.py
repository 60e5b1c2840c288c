"""The door: where whoever comes from another machine says who they are."""
