### What is said of a reading's value, and of limits and guards.
