# The digest's files: sheets, columns, and days in a calendar.

sheet-actions = What to do
sheet-fleet = Fleet
sheet-shopping = To buy
sheet-readings = Readings
sheet-key = Key
file-digest = The week as a spreadsheet.
file-calendar = Due dates for your calendar. A later file moves them.
file-calendar-empty = Nothing has a date yet: that takes readings, and resin and prefilter changes that are logged.

column-place = No.
column-what = What
column-why = Why
column-rig = Rig
column-state = State
column-rejection = Rejection at 12 °C
column-rejection-low = from
column-rejection-high = to
column-points = Points lost a year
column-resin-low = Resin, working days, at least
column-resin-likely = Resin, working days, likely
column-resin-high = Resin, working days, at most
column-glass = Glass, ppm
column-flushed = Days flushed
column-worked = Days worked
column-readings = Readings
column-last = Last reading
column-quantity = Quantity
column-unit = Unit
column-sum = Cost of all
column-day = Day
column-tap = Tap, ppm
column-ro = RO, ppm
column-raw-rejection = Rejection as read
column-temperature = Water, °C
column-pressure = Pressure, kPa
column-column = Column
column-meaning = Meaning

explain-state = sound, wearing, due, spent by the rejection; unproven: too few readings; check: a jump, look for a fault first
explain-rejection = (tap - RO) / tap of the membrane, corrected for cold water and weak pressure where they were given
explain-interval = four times out of five the truth lies between these
explain-points = percentage points of rejection lost a year; negative: gaining
explain-resin = working days until the bed is used up, learned from its readings and changes
explain-glass = last reading after the resin; 10 ppm and more will spot
explain-flushed = days of the last week on which the rig was flushed, of the days on which it worked
explain-raw-rejection = (tap - RO) / tap of the one reading
explain-pressure = gauge pressure before the membrane

state-di-only = no membrane
good-resin = DI resin
good-prefilters = prefilters
good-membrane = membrane
unit-litres = litres
unit-sets = sets
unit-pieces = pieces

event-resin = { $rig }: new resin
event-resin-about = The bed is likely used up about now. Relieve the pressure before opening it.
event-prefilters = { $rig }: prefilters
event-prefilters-about = Due by the calendar. Relieve the pressure before opening the housing.
event-membrane = { $rig }: new membrane
event-membrane-about = Cheapest about now, as far as is known today. Relieve the pressure before opening the housing.
