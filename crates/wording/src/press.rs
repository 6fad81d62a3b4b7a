//! What becomes of the process that sets sheets, told to whoever waits for a sheet.

messages! {
    out_of_memory(megabytes) = "setting the sheet took more than {megabytes} MB of memory and was stopped; the usual reason is an arrangement of your own";
    out_of_time(seconds) = "setting the sheet took longer than {seconds} s and was stopped; the usual reason is an arrangement of your own";
    panicked(place) = "setting the sheet failed by a fault of this program, at {place}";
    killed(signal) = "the process that sets the sheet was ended from outside or broke down (signal {signal})";
    ended(code) = "the process that sets the sheet ended before it was done (exit status {code})";
    ended_unknown = "the process that sets the sheet ended before it was done";
    not_started(problem) = "the process that sets the sheet cannot be started: {problem}";
    not_limited(problem) = "the process that sets the sheet could not limit its memory and was not used: {problem}";
    unreadable = "the process that sets the sheet answered what cannot be read";
    not_handed_over = "the plan could not be handed over to the process that sets the sheet";
    too_large(megabytes) = "the pages together are larger than {megabytes} MB";
    given_up(count) = "not tried, because {count} sheets in a row before it could not be set";

    // What it is told with.
    still_signed(problem, number) = "{problem}. Sheet {number} stays signed and can be printed again";
    nothing_signed(problem) = "nothing was signed, because its sheet could not be tried: {problem}";
    fault = "this stopped by a fault of this program; what was stored and signed stays as it was";
}
