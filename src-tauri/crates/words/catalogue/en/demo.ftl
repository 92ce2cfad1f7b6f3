### The invented demo job.
