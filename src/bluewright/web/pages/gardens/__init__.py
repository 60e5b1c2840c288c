"""Gardens: begin one, open one."""
