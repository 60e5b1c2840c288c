"""Vats: planned, made, looked at, sharpened, ended; and what ails one."""
