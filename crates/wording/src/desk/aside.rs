//! Setting a case aside, and bringing it back.

messages! {
    discard = "Discard this empty case";
    set_aside = "Set aside…";
    means = "A case that is set aside leaves the day and the list. It is kept with its reason, found by a search or under \"Set aside\", and can be brought back.";
    name_first = "Set your name in the settings first; who sets a case aside is recorded";
    reason = "Reason for setting aside";
    set_it_aside = "Set this case aside";
    go_on_planning = "Go on planning it";
    is_set_aside(name, day, reason) = "SET ASIDE by {name}, {day}: {reason}";
    is_discarded(name, day) = "DISCARDED by {name}, {day}; nothing had been entered";
    bring_back = "Bring back";
    is_aside = "SET ASIDE";
    shown(count) = "Set aside ({count})…";
    back_to_list = "Back to the theatre list";
    title = "Set aside";
    none = "No case is set aside";
}
