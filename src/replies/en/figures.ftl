# Numbers and days.

# Between a number's whole and its decimals.
decimal-mark = .
# Between the thousands of a sum.
thousands-mark = ,

today = today
earlier-today = earlier today
yesterday = yesterday
weekday = { $day ->
    [1] Monday
    [2] Tuesday
    [3] Wednesday
    [4] Thursday
    [5] Friday
    [6] Saturday
   *[7] Sunday
  }
date = { $day } { $month ->
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
date-year = { $date } { $year }
month-year = { $month ->
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
  } { $year }

## Lists

# From a day to another.
days-span = { $from } to { $to }
list-and = { $first } { $link } { $last }
list-or = { $first } { $link } { $last }
and = and
and-before-i = and
or = or
or-before-o = or
month = { $month ->
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
# A sign that stands as the language has it, such as the euro's.
money-by-language = { $sign }{ $number }
