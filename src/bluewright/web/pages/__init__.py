"""The pages, one folder a noun: urls, views, what was typed, what is shown."""
