"""Rows to records of the science, and answers back. Nothing else knows both sides."""
