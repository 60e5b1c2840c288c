"""Lots: which jars to mix for a job at the least spread of its indigo, and whether they hold enough."""
