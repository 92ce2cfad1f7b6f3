### What is said of a tester for one reading.
