# What the server of the workbench says. The words of the pages stand in en.ftl.

name-empty = Give it a name.
name-too-long = That name is too long: up to { $most } letters.
name-not-good = That name can't be a file's: leave out / \ : * ? " < > | and a full stop at its beginning or end.
outside-folder = That leads out of your folder, so it is not opened.
untitled = Untitled
not-found = There is no manuscript named { $name } in this folder. It may have been renamed or moved; the folder shows what is there.
no-such-page = There is no such page here.
no-such-state = There is no such saved state.
no-such-job = That job is over and its files are gone. Ask for them again.
name-taken = There is already a manuscript named { $name }. Choose another name.
file-too-long = This file is longer than { $most } kB, too long for a manuscript. Put one pattern in one file.
file-not-text = This file does not hold plain text. Save the manuscript as plain text (UTF-8).
file-not-written = It could not be written: { $reason }. Your words are still in this window; nothing is lost.
text-too-long = That is longer than { $most } kB, and a manuscript is one pattern. Nothing was changed.
text-odd = That holds signs that no text file may hold. Nothing was changed.
body-too-long = That is more than is taken at once ({ $most } kB). Nothing was changed.
body-packed = Packed text is not taken. Nothing was changed.
not-asked-well = The page asked for something the server does not know. Load the page anew.
stranger = This address belongs to a workbench started on this machine. Open it with the address that `hookwright open` printed.
foreign = This came from another page, so it was not done.
conflict = This manuscript was changed elsewhere at the same place. Both versions are kept: choose what stands.
gone-file = The file was moved or deleted outside, so it was written anew.
too-long-to-check = This manuscript takes more than { $seconds } seconds to work through, so it was stopped. Look for a number with a digit too many; what you write is still saved.
too-big-to-check = This manuscript takes more memory than is given to one, so it was stopped. Look for a number with a digit too many; what you write is still saved.
own-slip = Hookwright itself slipped over this ({ $where }). The manuscript is not to blame, and what you write is still saved.
not-there-yet = There is no picture of this yet.
nothing-to-draw = { $reason }.
nothing-pasted = Nothing was pasted. Paste the text of a pattern.
no-such-template = There is no such beginning.
out-nothing = Choose at least one thing to be made.
out-unknown = { $what } is not among the things that can be made.
out-waiting = Waiting for its turn
out-making = Making { $what }
out-done = { $number ->
    [one] One file is ready.
   *[other] { $number } files are ready.
}
out-cancelled = Stopped. Nothing was kept.
out-failed = { $what } could not be made: { $reason }
measure-nothing = Give a measure, a gauge, a yarn or a size to start from.
too-little-for-yarn = { $reason }.
said-proved = { $words }.
said-mend = { $number ->
    [one] One thing must be mended
   *[other] { $number } things must be mended
}
said-look = { $number ->
    [one] one thing to look at
   *[other] { $number } things to look at
}
said-clean = Nothing must be mended. { $words }.
copy-of = { $name } (copy)
swatch-reckoned = { $words }
swatch-lacks = Count the stitches and measure how wide they are, or the rows and how high they are.
out-manuscript = the manuscript
out-pdf = the PDF in { $terms } terms ({ $paper ->
    [letter] Letter
   *[a4] A4
})
out-sheet = the sheet as { $kind } in { $terms } terms
out-sizes = the table of sizes
out-no-sizes = This pattern has no table of sizes.
out-counts = the table of counts
out-yarn = the table of yarn
out-chart = the chart of { $piece }
out-schematic = the schematic of { $piece }
out-picture = the picture of { $piece }
out-surface = the surface of { $piece }
construction-hat-sideways = Hat worked sideways
construction-hat-top-down = Hat from the top down
construction-mitten = Mitten
construction-square = Square
construction-ripple = Ripple
construction-shawl = Shawl
construction-toy = Toy
construction-top = Top
tidy-head-there = It has a head already, so it stays as it is.
tidy-head = What its first lines say went into the head: { $what }.
tidy-left = It stays as it was pasted: put in order it would not come to the same stitches.
tidy-terms = It was read in { $terms } terms, as far as its words tell. Change that in the head if it is in the other ones.
tidy-rows = { $rows ->
    [one] One row was read, in its own words.
   *[other] All { $rows } rows were read, and stand in their own words.
}
tidy-unread = { $unread ->
    [one] One row could not be read as a whole; it stands as it was pasted.
   *[other] { $unread } rows could not be read as a whole; they stand as they were pasted.
}
tidy-no-rows = No row was found in it. A row begins with its number, such as Row 1.
