### Dates, levels and other small words that stand beside quantities.

said-month = { $month ->
    [1] Jan
    [2] Feb
    [3] Mar
    [4] Apr
    [5] May
    [6] Jun
    [7] Jul
    [8] Aug
    [9] Sep
    [10] Oct
    [11] Nov
   *[12] Dec
}
said-date = { $day } { $month } { $year }
said-date-time = { $date } { $time }
said-time-offset = { $time } { $offset }
said-offset = UTC{ $offset }

## Levels, as a column of a paper or a file says them.

said-level-done = done
said-level-remark = remark
said-level-look = look
said-level-stop = stop

## Comparators, beside their sign.

said-comparator-exact = exact
said-comparator-more-than = more than
said-comparator-less-than = less than
