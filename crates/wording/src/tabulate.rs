//! Why the header of a table of eyes cannot be used.

messages! {
    empty = "the file is empty; the first line must name the columns";
    not_text = "the first line is not text (UTF-8) or longer than any header";
    unknown_did_you_mean(position, name, nearest) = "column {position} \"{name}\" is unknown; did you mean \"{nearest}\"?";
    unknown(position, name, known) = "column {position} \"{name}\" is unknown; known columns: {known}";
    twice(name, first, second) = "column \"{name}\" stands twice, as column {first} and column {second}";
    missing(name) = "column \"{name}\" is missing";
    no_keratometry(radii, powers) = "keratometry is missing: {radii}, or {powers}";
    names_two(one, other) = "{one} and {other}";
    names_three(one, second, third) = "{one}, {second} and {third}";
    carriage_returns = "lines end in carriage returns only; save the file with line feeds";
    separator(separator) = "columns are separated by \"{separator}\"; they must be separated by commas";
}
