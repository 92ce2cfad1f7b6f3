### The cautions that are read and confirmed once per job and person.
