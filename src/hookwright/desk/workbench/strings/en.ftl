# The words of the pages of the workbench. A choice in a sentence is always on one number.

lang = en
home = Your folder
skip-to-work = Skip to the work
scheme-dark = Dark
scheme-light = Light
not-here = Not here
words-here = What you wrote
words-there = What is in the file
needs-script = This page needs JavaScript, which is off in this browser.
server-gone = Hookwright is not running. What you write is kept in this browser until it is back.
started-anew = Hookwright was started anew. Open this manuscript from the address it printed: what you wrote here is kept and will be taken up there.
not-done = That could not be done.
close = Close
leave-it = Leave it
more = More
more-named = More for { $title }
size = Size
reading = Reading
just-now = just now

## The folder
folder-title = Your patterns
folder-needs-script = The list with pictures needs JavaScript. The manuscripts can be opened all the same.
folder-empty = There is no manuscript in this folder yet. Begin with one of these, or paste a pattern you have.
manuscripts = Manuscripts
new-manuscript = New manuscript
new-lead = Each is a short pattern that proves. Its words are there to be changed.
paste-pattern = Paste a pattern
put-away = Put away
begin = Begin
name-it = Its name
new-name = New name
copy = Copy
rename = Rename
archive = Put away
restore = Take out again
restore-named = Take { $title } out again
copied = { $title } is copied
renamed = { $title } is now called { $to }
archived = { $title } is put away; it can be taken out again below the list
restored = { $title } is back in the folder
state-proved = Proved
state-mend = { $number ->
    [one] One thing must be mended
   *[other] { $number } things must be mended
}
state-look = { $number ->
    [one] One thing to look at
   *[other] { $number } things to look at
}
state-unread = Not read
state-being-read = Being read
sizes-many = { $number } sizes, { $first } to { $last }
paste-here = The pattern as you have it
paste-hint = From a page, a document or an old file: rows, sizes and notes as they stand.
paste-read = Read it
paste-reading = Reading the pattern
paste-tidied = As a manuscript
paste-manuscript = The manuscript
paste-manuscript-hint = Look it over. You can change it here, or later.
paste-plain = With its rows in plain wording (the stitches are the same)
paste-keep = Keep it in the folder

## Writing
manuscript = Manuscript
history = History
out = Print and share
keep-rows = Row keeper
to-manuscript = Back to the manuscript
save-and-check = Save and check
made-to-measure = Made to measure
views = What is shown
view-words = Words
view-findings = Findings
view-beside = Beside
findings = Findings
panels = Beside the words
editor-help = F8 goes to the next finding, Alt and Enter shows its sum, Control and full stop applies its suggestion, Alt and C says the counts of the row. Tab leaves the manuscript.
kept-typing = Writing
kept-saving = Saving
kept-kept = Saved
kept-waiting = Not saved yet
kept-told = Not saved
taken-up = What was not saved the last time is here again
changed-outside-taken = Changed elsewhere and taken over
put-away-elsewhere = This manuscript was put away or removed
clash-heading = Changed in two places
clash-words = The file was changed elsewhere in the same place as here. Choose which words stand; the other version stays in the history.
clash-mine = Here
clash-theirs = Elsewhere
clash-keep-mine = Keep what is here
clash-take-theirs = Take the other
what-differs = What differs
nothing-there = nothing
counts-by-size = Counts by size
counts-worked = Worked counts
worked = count
no-counts-here = No row is worked on this line
size-chosen = Size { $size }
next-row = next
grade-mend = Must mend
grade-look = Look at this
grade-note = To know
must-be-mended = { $number ->
    [one] One thing must be mended
   *[other] { $number } things must be mended
}
nothing-must = Nothing must be mended
to-look-at = { $number ->
    [one] one thing to look at
   *[other] { $number } things to look at
}
all-well = Nothing to mend
and-more = { $number ->
    [one] and one more
   *[other] and { $number } more
}
at-row = { $row }, line { $line }
at-line = Line { $line }
the-sum = The sum
here-it-differs = differs
for-the-same-reason = For the same reason: { $rows }
ways-out = Ways out
sure-certain = Certain:
sure-likely = Likely:
sure-choice = Your choice:
suggestion-applied = Changed: { $words }. Control and Z takes it back.
mend-found = Tried, and it mends it: { $words }
nothing-found = Nothing is found
nothing-here = Nothing is found on this line
no-suggestion = There is no suggestion here that can be put in
put-in-head = Put into the head of the manuscript
keys = Keys
key-next = To the next finding, with its sum
key-before = To the finding before
key-sum = The sum of the finding on this line
key-apply = Apply the suggestion of the finding on this line
key-offer = Offer words
key-counts = Say the counts of this row
key-undo = Undo
key-find = Find
key-save = Save now (it saves by itself, too)

search-find = Find
search-replace-with = Replace with
search-next = Next
search-previous = Previous
search-all = All
search-case = Match capitals
search-regexp = As a pattern of signs
search-whole = Whole words
search-replace = Replace
search-replace-all = Replace all
search-current = this one
search-replaced = replaced $ times
search-on-line = on line
go-to-line = Go to line
go = Go
words-offered = Words offered

## Beside the words
panel-sheet = Sheet
panel-chart = Chart
panel-picture = Picture
panel-schematic = Schematic
panel-sizes = Sizes
panel-swatches = Swatches
panel-yarn = Yarn
terms = Terms
terms-us = US terms
terms-uk = UK terms
piece = Piece
piece-at-cursor = At the cursor
piece-all = All sewn together
whole = The whole
chart-help = The chart. Arrow keys go from symbol to symbol, Enter goes to its words.
chart-row = Marked: { $row }
chart-symbol = { $stitch }, { $row }
larger = Larger
smaller = Smaller
picture-making = The picture is being made
picture-help = The piece in space. Arrow keys turn it, plus and minus bring it nearer or further.
picture-turn = Turn it with the pointer or the arrow keys; plus and minus for nearer and further.
picture-still = A still picture, since this browser can't draw in space.
picture-alt = { $piece } in size { $size } as it will look
sizes-table = Finished measures
no-sizes-table = There are no finished measures to show. Name them under finished: in the head.
ease-of = Ease: { $of }
ease-of-all = Ease of the whole
ease-tried = Tried with this ease
ease-write = Write it into the manuscript
sizes-plot = Finished sizes against the bodies they are for
numbers-found = Numbers found
ease-not-written = Tried here only; nothing is written.
ease-back = As in the manuscript
swatches-there = Swatches of this manuscript
no-swatches = No swatch is in the head yet.
swatch = swatch
stitches-over = { $number } stitches over { $over } cm
rows-over = { $number } rows over { $over } cm
swatch-of = In pattern
swatch-worked = Counted
swatch-gauge = Gauge
swatch-new = A swatch you have counted
swatch-lead = Count over as much as you can; the gauge is reckoned as you type.
swatch-stitches = Stitches
swatch-width = Width
swatch-rows = Rows
swatch-height = Height
swatch-unit = Measured in
unit-cm = cm
unit-in = inches
swatch-reckon = Reckon the gauge
swatch-put = Put it into the head
yarn-table = Yarn by size
yarn-of = { $what }: { $metres } m
yarn-metres = Metres
yarn-grams = Grams
yarn-balls = Balls
yarn-cost = Cost
colour = Colour
balls = { $number ->
    [one] one ball
   *[other] { $number } balls
}

## Print and share
out-lead = All that you choose comes in one packed file, with a list of what is in it.
out-pdf = PDF to print
out-html = Web page
out-text = Text
out-drawings = Drawings and pictures
out-tables = Tables
format-pdf-a4-us = A4, US terms
format-pdf-a4-us-large = A4, US terms, large print
format-pdf-a4-uk = A4, UK terms
format-pdf-a4-uk-large = A4, UK terms, large print
format-pdf-letter-us = Letter, US terms
format-pdf-letter-us-large = Letter, US terms, large print
format-pdf-letter-uk = Letter, UK terms
format-pdf-letter-uk-large = Letter, UK terms, large print
format-html-us = US terms
format-html-uk = UK terms
format-txt-us = Plain text, US terms
format-txt-uk = Plain text, UK terms
format-md-us = Markdown, US terms
format-md-uk = Markdown, UK terms
format-manuscript = The manuscript itself
format-chart-svg = Charts (SVG)
format-schematic-svg = Schematics (SVG)
format-picture-png = Pictures (PNG)
format-surface-glb = Shape in space (GLB)
format-sizes-csv = Sizes (CSV)
format-counts-csv = Counts of every row (CSV)
format-yarn-csv = Yarn (CSV)
out-pictures = Pictures in yarn on the PDFs and web pages
pictures-none = None
pictures-first = Of the first piece
pictures-all = Of every piece
out-choose = Choose at least one.
out-make = Make them
out-making = Being made
out-cancel = Stop
out-ready = Ready
out-fetch = Save { $name }

## History
history-lead = Every saved state of { $title }: look at it, compare it row by row, bring it back.
states = Saved states
every-saving = Every single saving
no-states = Nothing was saved yet.
state-now = As it is now
why-typing = written
why-outside = changed outside
why-restored = brought back
why-suggestion = suggestion applied
why-begun = begun
why-conflict = kept where two clashed
why-merged = two versions brought together
states-in-run = { $number ->
    [one] one saving
   *[other] { $number } savings
}
compare-now = Compare with now
look-at = Look at the words
bring-back = Bring this back
brought-back = It is brought back. What stood before is in the list, too.
compare-same-state = This is how it stands now. Choose an earlier state to compare.
compare-none = Row by row there is no difference.
compare-head = The head differs, too.
compare-summary = Rows with other stitches: { $stitches }. Rows only worded otherwise: { $words }.
same-stitches = the same stitches
other-stitches = other stitches
then = Then
now = Now

## Made to measure
measure-lead = { $title } for one maker: her measures, her gauge, her pattern. Nothing here changes the manuscript.
measures = Her measures
measure-typical = such as { $typical }
measure-hint = in cm, or with its unit
no-measures = The head of this pattern does not say which measures its numbers come from, so only gauge and yarn can be changed.
maker-hand = Her gauge and yarn
gauge = Gauge
gauge-hint = written for { $gauge }
gauge-hint-none = such as 15 sts and 11 rows to 10 cm
yarn = Yarn
yarn-hint = another weight, such as dk
near-size = Start from size
nearest = The nearest
measure-make = Make her pattern
measure-making = The numbers are being found
measure-made = Her pattern
measure-fetch-sheet = Save the sheet
measure-fetch-text = Save as text
measure-not-made = This could not be made
gauge-in-words = { $stitches } stitches and { $rows } rows to { $over } cm
measure-keep = Keep it in the folder
measure-name = { $name } made to measure

## Row keeper
keep-work = The row in hand
keep-keys = With this part focused: Space for done, R for one repeat, arrow keys to go back and on.
row-of = row { $at } of { $of }
row-count = { $count } in all
row-done = Done
row-done-again = Done (ticked before)
row-back = Back
row-skip = On
row-clock = This row { $row } · all { $all }
all-rows = All rows
all-rows-done = All rows are done
ticked = Done:
no-rows = There are no rows to work yet.
repeats-made = { $made } of { $times }
repeat-number = Repeat { $number } of { $of }
repeat-one-more = One more
repeats-over = All repeats of this row are worked
voice = Voice
voice-warning = Say "done", "back", "repeat" or "where". The browser does the listening: some send what they hear to their maker to be understood. Hookwright itself sends nothing.
voice-on = Listen
voice-not = This browser could not listen
voice-next = done, next
voice-back = back, undo
voice-again = repeat, again
voice-where = where, read
