### What cannot be a reading, a circuit or a limit set: one line, at most twelve words, what to do.
