### What went wrong around the record, and what to do. One key a code: failure-CODE.
