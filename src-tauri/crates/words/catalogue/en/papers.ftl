### Headings and sentences that stand only on papers.
