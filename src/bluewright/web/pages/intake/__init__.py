"""Intake: readings from a logger's file."""
