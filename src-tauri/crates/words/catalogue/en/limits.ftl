### What a limit set asks of a circuit, and where it says so.
