# The owner's data: export, import, who changed what, closing.

in-private = That's for our private chat. Type it there.

close-sure = To close { $outfit } for good, type its name: close outfit { $outfit }
    From then on nothing is logged, and a week later all of it is deleted. Above is a last export.
closing-to-owner = { $outfit } is closed: nothing is logged, and on { $day } all of it is deleted. To stop that: keep outfit
closing-to-crew = { $outfit } has been closed by its owner. Nothing is logged, and on { $day } all of it is deleted.
outfit-kept = { $outfit } goes on. Readings count again.
not-closing = { $outfit } isn't closing. All goes on.

keep-sure = With "{ $setting }", everything from before { $day } is deleted for good: now { $what }, and from then on whatever gets older. Sure?
    It won't count in anything I work out. A copy first: export
    Tap the button, or type: { $setting }, yes
keep-button = Delete
keep-noted = Set: { $setting }. Nothing is that old yet. From now on older rows are deleted for good, without asking again.
keep-deleting = Set: { $setting }. Everything from before { $day } is deleted for good within a day: { $what }.
    To stop that: keep everything
keep-for-good = Set: keep everything. Nothing is deleted for its age.

exported = That's everything I keep: { $what }, the settings and the people.
    The workbook has it all, and a last sheet that explains each column. The other files can be read in again: import
exported-bare = That's everything I keep: the settings and the people. The text file can be read in again: import
counted-readings = { $count ->
    [one] 1 reading
   *[other] { $count } readings
  }
counted-services = { $count ->
    [one] 1 service
   *[other] { $count } services
  }
counted-rigs = { $count ->
    [one] 1 rig
   *[other] { $count } rigs
  }
counted-settings = { $count ->
    [one] 1 setting
   *[other] { $count } settings
  }
key-title = key
key-sheet = sheet
key-column = column
key-meaning = meaning
key-rig = The rig's name; a removed rig has "removed" after it.
key-taken = When the water was tested, by the outfit's clock (ISO 8601).
key-done = When it was done, by the outfit's clock (ISO 8601).
key-feed = Tap (feed), ppm of dissolved solids.
key-permeate = RO outlet (permeate), ppm of dissolved solids. Empty on a rig without a membrane.
key-product = Glass (product, behind the resin), ppm of dissolved solids.
key-temperature = Temperature of the feed water, degrees Celsius.
key-pressure = Pressure of the feed water, kPa above the air's (gauge).
key-permeate-flow = Flow of the permeate, litres a minute.
key-waste-flow = Flow to waste, litres a minute.
key-feed-us = Tap as it was typed in uS/cm, where it was.
key-permeate-us = RO outlet as it was typed in uS/cm, where it was.
key-product-us = Glass as it was typed in uS/cm, where it was.
key-by = Who sent it: first name.
key-withdrawn = When it was undone. Such a row no longer counts, and isn't read in again.
key-what = membrane, resin, repack, prefilter, flush, oring, preserved, or same-membrane: somebody said that it was not changed.
key-minutes = How long it took, in minutes.
key-price = What it cost, in the smallest unit of the outfit's currency, such as cents.
key-kind = ro: with a membrane. di: resin alone.
key-flush = hand: flushed by hand. itself: flushes itself.
key-added = When it was added.
key-removed = When it was removed.
key-setting-rig = The rig, if it is set for one rig alone.
key-setting = Which setting.
key-value = Its value, as it is kept.
key-since = Since when.
key-name = First name.
key-role = owner, lead or crew.

import-how = Send me a sheet as a CSV file, or paste its rows below the word import:
    import
    rig,date,tap,ro
    heron,2026-03-02 07:40,180,12
    Services: rig,date,service. Settings: a line each, like: resin price 9. You see what would come in before it does.
import-no-headings = I can't tell the columns. The first line must name them, like this:
    rig,date,tap,ro
    or for services: rig,date,service
import-too-many = That is more than { $most } rows. Send them in parts.
import-dates = Is { $date } written with the day first, or the month first?
    Tap a button, or type: day first | month first
label-day-first = Day first
label-month-first = Month first
import-readings = { $count ->
    [one] 1 new reading
   *[other] { $count } new readings
  }
import-services = { $count ->
    [one] 1 new service
   *[other] { $count } new services
  }
import-rigs = { $count ->
    [one] 1 rig is new or changes
   *[other] { $count } rigs are new or change
  }
import-settings = { $count ->
    [one] 1 setting is new or changes:
   *[other] { $count } settings are new or change:
  }
import-span = { $what }, { $from } to { $until }
import-on-a-day = { $what }, { $day }
import-new-rigs = New rigs, would be added: { $rigs }
import-known = { $count ->
    [one] 1 line is here already and left out.
   *[other] { $count } lines are here already and left out.
  }
import-withdrawn = { $count ->
    [one] 1 line was undone and is left out.
   *[other] { $count } lines were undone and are left out.
  }
import-ahead = { $count ->
    [one] 1 line has a future date and is left out.
   *[other] { $count } lines have a future date and are left out.
  }
import-misnamed = { $count ->
    [one] 1 line has a name that no rig can have, and is left out.
   *[other] { $count } lines have a name that no rig can have, and are left out.
  }
import-too-old = { $count ->
    [one] 1 line is older than what is kept, and is left out.
   *[other] { $count } lines are older than what is kept, and are left out.
  }
import-keep-apart = Left out, since it deletes what is old. To set it, type: { $setting }
import-left-out = Columns that I don't know: { $columns }
import-odd = { $count ->
    [one] 1 line comes in, but looks like a slip:
   *[other] { $count } lines come in, but look like slips:
  }
odd-risen = the RO isn't below the tap
odd-far-tap = the tap is far from its usual
import-bad = { $count ->
    [one] 1 line can't be read and would be left out:
   *[other] { $count } lines can't be read and would be left out:
  }
import-more-bad = and { $count } more
bad-line = line { $line }: { $why }
bad-line-cell = line { $line }: { $why } ("{ $cell }")
bad-no-rig = no rig
bad-no-time = no date, or none that I can read
bad-no-feed = no tap reading
bad-no-second = neither RO nor glass
bad-no-number = not a number
bad-too-far = no meter shows that
bad-no-service = not a service that I know
bad-open-quote = a quotation mark that is not closed
bad-no-setting = no setting that I know
bad-needs-rig = that holds for one rig, and none is named
bad-for-all = that holds for the whole outfit, not for one rig
bad-lines-cross = the lines must fall from wearing over due to spent
bad-name-taken = that name means another rig
bad-no-zone = no zone that I know
import-adds-nothing = Nothing new to import.
import-sure = Import it? Tap a button, or type: import now | drop import
import-several = { $count } imports are waiting. The button takes all of them, rigs first.
label-import = Import
label-drop-import = Drop
import-nothing-waits = Nothing is waiting to be imported. How it works: import
import-dropped = OK, nothing imported.
imported = Imported: { $what }.
    If that was wrong, type: undo import
import-none-to-undo = There's no import to undo.
import-undone = Import undone.
import-undone-rows = No longer counted: { $what }.
import-undone-settings = { $count ->
    [one] 1 setting is as before.
   *[other] { $count } settings are as before.
  }
import-undone-rigs = Removed again: { $rigs }.
import-rigs-stay = Kept, since there's more on it by now: { $rigs }.
file-not-read = I only read files from an owner. Readings are texted: { $example }
file-too-large = I couldn't read that file. CSV files up to 1 MB, please; or paste the rows below the word import.

changes-title = Who changed what, newest first
changes-none = Nothing has been changed yet.
changes-line = { $day }  { $name }: { $what }
did-join = joined
did-leave = left
did-ask-to-be-forgotten = asked to be forgotten
did-remove = removed { $other }
did-make-owner = made { $other } owner
did-make-lead = made { $other } lead
did-make-crew = made { $other } crew
did-hand-over = handed over to { $other }
did-cancel-invites = ended open invites
did-export = exported everything
did-import = { $count ->
    [one] imported 1 row
   *[other] imported { $count } rows
  }
did-undo-import = { $count ->
    [one] undid an import of 1 row
   *[other] undid an import of { $count } rows
  }
did-delete-old = { $count ->
    [one] 1 row was too old to be kept and is deleted
   *[other] { $count } rows were too old to be kept and are deleted
  }
by-itself = by itself
did-add-rig = added { $rig }
did-rename-rig = renamed { $rig }
did-remove-rig = removed { $rig }
did-have-membrane = has a membrane
did-close = closed the outfit
did-keep = kept the outfit
did-link = linked the crew chat
did-unlink = unlinked the crew chat
did-set = set "{ $setting }"
did-take-back = took back "{ $setting }"
did-withdraw = undid { $rig }, { $echo }
