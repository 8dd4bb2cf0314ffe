# Settings. Each `set-...` text is what somebody could type to set that very
# value: it is shown, copied, changed and sent back. A test reads each one back.

set-currency = currency { $value }
set-country = country { $value }
set-resin-price = resin price { $value } a litre
set-membrane-price = membrane price { $value }
set-prefilter-price = prefilter price { $value }
set-membrane-labour = labour { $value } a membrane change
set-resin-labour = resin labour { $value } a change
set-resin-litres = resin { $value }
set-litres-per-day = { $value } a day
set-busy-months = busy { $months } { $value } %
set-wearing-line = wearing line { $value } %
set-due-line = due line { $value } %
set-spent-line = spent line { $value } %
set-spot-line = spot line { $value } ppm
set-working-days = working days { $value }
set-day-ends = day ends { $value }
set-day-ends-on = { $day } ends { $value }
set-digest-at = digest { $day } { $value }
set-digest = { $value ->
    [0] digest off
   *[other] digest on
  }
set-nudges = { $value ->
    [0] reminders off
   *[other] reminders on
  }
set-notices = { $value ->
    [0] warnings off
   *[other] warnings on
  }
set-quiet-hours = quiet hours { $from }-{ $to }
set-quiet-hours-off = quiet hours off
set-meter-ppm = meter ppm
set-meter = meter uS { $value }
set-degrees-c = degrees C
set-degrees-f = degrees F
set-pressure-unit-bar = pressure bar
set-pressure-unit-psi = pressure psi
set-volume-unit-l = volume litres
set-volume-unit-gal = volume gallons
set-prefilter-days = prefilters every { $value } days
set-membranes = { $value ->
    [one] 1 membrane
   *[other] { $value } membranes
  }
set-resin-bed-yes = RO and DI
set-resin-bed-no = RO only
set-stands-upright = upright
set-stands-lying = lying
set-rated = rated { $flow } gpd at { $temperature } F { $pressure } psi
set-name = name { $value }
set-zone = zone { $value }
set-keep-years = { $value ->
    [one] keep 1 year
   *[other] keep { $value } years
  }
set-keep-years-everything = keep everything
set-time-off = time off { $value }
set-time-off-span = { $ends ->
    [0] from { $from }
   *[other] { $from } to { $last }
  }{ $why ->
    [parked] { " " }parked
    [garage] { " " }garage
    [broken] { " " }broken down
    [winter] { " " }winter
    [preserved] { " " }preserved
    [lent] { " " }lent
   *[off] { "" }
  }
set-short-names = also called { $value }
litres = { $value } litres
gallons = { $value } gallons

setting-noted = Set: { $setting }.
setting-unusual = { $setting }? That's far from usual, so I haven't set it yet.
    If it's right, tap the button or type: { $setting }, yes
setting-unusual-button = Set it
setting-noted-rig = Set for { $rig }: { $setting }.
setting-as-before = Back to the default: { $setting }.
setting-default-none = That's no longer set.
setting-names-a-rig = That's for one rig. Like this: { $rig } { $setting }
setting-for-all = That's for the whole outfit, so without a rig's name: { $setting }
setting-lines-cross = The lines must fall from wearing over due to spent. Now: { $wearing }, { $due }, { $spent } %. Move the others first.
setting-name-taken = "{ $name }" means { $rig } already.
settings-title = { $outfit }. To change a line, type it with another value.
settings-title-rig = { $rig }. To change a line, type it with another value.
settings-defaults = Defaults:
settings-missing = Not set yet. For example:
settings-back = Back to the default: { $example }
settings-back-example = due line default
settings-back-example-rig = { $rig } resin default
settings-currency = No currency set. Type for example: currency EUR
