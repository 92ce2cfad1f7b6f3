### Dates, durations, signs, levels and other small words that stand beside quantities.

date = { $month ->
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
date-time = { $date } { $time }

## Signs: a shape and one of these words.

sign-to-do = to do
sign-done = done
sign-look = look
sign-stop = stop

## Levels, as a column of a paper or a file says them.

level-done = done
level-remark = remark
level-look = look
level-stop = stop

## Comparators, beside their sign.

comparator-exact = exact
comparator-more-than = more than
comparator-less-than = less than
