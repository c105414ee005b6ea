//! The commands of the keepers screen.

/// What can be asked of the keepers screen while nothing lies over it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum KeepersCommand {
    ToScreenBefore,
    NextKeeper,
    PreviousKeeper,
    PageDown,
    PageUp,
    FirstKeeper,
    LastKeeper,
    Listen,
    Open,
    Delete,
    EditName,
    EditNotes,
    EditTags,
    EditHow,
    Find,
    FindKind,
    NextTag,
    NextOrder,
    PreviousOrder,
    ShowAll,
    Practise,
    PractiseThis,
    MoveDown,
    MoveUp,
    Faster,
    Slower,
}
