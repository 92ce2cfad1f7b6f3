### What is said of how a reading was taken, or of why there is none.
