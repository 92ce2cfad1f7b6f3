### Dates, levels and other small words that stand beside quantities.

said-date = { $month ->
    [1] { $day } Jan { $year }
    [2] { $day } Feb { $year }
    [3] { $day } Mar { $year }
    [4] { $day } Apr { $year }
    [5] { $day } May { $year }
    [6] { $day } Jun { $year }
    [7] { $day } Jul { $year }
    [8] { $day } Aug { $year }
    [9] { $day } Sep { $year }
    [10] { $day } Oct { $year }
    [11] { $day } Nov { $year }
   *[12] { $day } Dec { $year }
}
said-date-time = { $date } { $time }

## Levels, as a column of a paper or a file says them.

said-level-done = done
said-level-remark = remark
said-level-look = look
said-level-stop = stop

## Comparators, beside their sign.

said-comparator-exact = exact
said-comparator-more-than = more than
said-comparator-less-than = less than
