//! Options that say nothing where they stand. They are refused: what is asked for and then ignored
//! would look answered.

use super::args::{Cli, Command, Neck, Request, TuningQuestion, ViewWord};

/// The option that does not apply, in words; `None` where all of them do.
pub(super) fn misused(cli: &Cli) -> Option<String> {
    match &cli.command {
        Some(Request::Print(Command::Neck(neck))) => misused_on_neck(neck),
        Some(Request::Print(Command::Tunings {
            question: Some(TuningQuestion::Compare { .. }),
        })) => cli.common.capo.is_some().then(capo_beside_compare),
        _ => None,
    }
}

/// Two tunings are compared as they are strung. With a capo on one of them alone its frets would
/// not be those of the other.
fn capo_beside_compare() -> String {
    "--capo is not used by tunings compare: expected two tunings and no capo, which moves all \
     shapes alike"
        .to_owned()
}

/// An option of views: is it given, and which views does it belong to?
struct ViewOption {
    name: &'static str,
    is_given: bool,
    views: &'static [ViewWord],
}

fn misused_on_neck(neck: &Neck) -> Option<String> {
    let given = options(neck).into_iter().filter(|option| option.is_given);
    let mut misplaced = given.filter(|option| match neck.view.view {
        Some(view) => !option.views.contains(&view),
        None => true,
    });
    if let Some(option) = misplaced.next() {
        return Some(refused(&option, neck.view.view));
    }
    let inversions = neck.view.inversions.len();
    (inversions > 2).then(|| {
        format!("--inversions names {inversions}: expected one for both triads, or one for each")
    })
}

fn options(neck: &Neck) -> [ViewOption; 6] {
    use ViewWord::{Across, Position, Set, Two};
    let view = &neck.view;
    let option = |name, is_given, views| ViewOption { name, is_given, views };
    [
        option("--position", view.position.is_some(), &[Position, Two]),
        option("--strings", view.strings.is_some(), &[Set, Two]),
        option("--open", view.open, &[Position]),
        option("--choice", view.choice.is_some(), &[Across, Two]),
        option("--overlap", view.overlap.is_some(), &[Across]),
        option("--inversions", !view.inversions.is_empty(), &[Across]),
    ]
}

fn refused(option: &ViewOption, view: Option<ViewWord>) -> String {
    let words: Vec<&str> = option.views.iter().map(|view| view.word()).collect();
    let (name, views) = (option.name, words.join(" or "));
    match view {
        Some(view) => {
            format!("{name} says nothing in the view {}: expected --view {views}", view.word())
        }
        None => format!("{name} says nothing without a view: expected --view {views} too"),
    }
}
