### Dates, durations, signs, levels and other small words that stand beside quantities.
