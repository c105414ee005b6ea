//! Reads what is asked of an SVG file, with a reader that shares no code with its writer.

use std::collections::BTreeMap;

use quick_xml::Reader;
use quick_xml::events::Event;

/// Something drawn: its name, its attributes, the text in it, and the titles of the groups around it.
#[derive(Clone, Debug)]
pub(crate) struct Drawn {
    pub(crate) name: String,
    pub(crate) attributes: BTreeMap<String, String>,
    pub(crate) text: String,
    pub(crate) titles: Vec<String>,
}

impl Drawn {
    pub(crate) fn number(&self, attribute: &str) -> f64 {
        self.attributes[attribute].parse().unwrap()
    }
}

/// All that is drawn in a file, in order; a file that is no XML is refused.
pub(crate) fn drawn(svg: &str) -> Vec<Drawn> {
    let mut reader = Reader::from_str(svg);
    let mut all: Vec<Drawn> = Vec::new();
    let mut open: Vec<(String, Option<String>)> = Vec::new();
    loop {
        match reader.read_event().unwrap() {
            Event::Start(start) => {
                all.push(of(&start, &open));
                open.push((name_of(&start), None));
            }
            Event::Empty(start) => all.push(of(&start, &open)),
            Event::Text(text) => {
                let text = text.decode().unwrap().into_owned();
                add(&mut all, &mut open, &text);
            }
            Event::GeneralRef(reference) => {
                let sign = match &*reference.decode().unwrap() {
                    "amp" => "&",
                    "lt" => "<",
                    "gt" => ">",
                    "quot" => "\"",
                    other => panic!("{other}"),
                };
                add(&mut all, &mut open, sign);
            }
            Event::End(_) => drop(open.pop().unwrap()),
            Event::Eof => break,
            _ => {}
        }
    }
    assert!(open.is_empty());
    all
}

fn name_of(start: &quick_xml::events::BytesStart<'_>) -> String {
    String::from_utf8(start.name().as_ref().to_vec()).unwrap()
}

fn of(start: &quick_xml::events::BytesStart<'_>, open: &[(String, Option<String>)]) -> Drawn {
    let attribute = |attribute: quick_xml::events::attributes::Attribute<'_>| {
        let key = String::from_utf8(attribute.key.as_ref().to_vec()).unwrap();
        (key, attribute.unescape_value().unwrap().into_owned())
    };
    Drawn {
        name: name_of(start),
        attributes: start.attributes().map(|found| attribute(found.unwrap())).collect(),
        text: String::new(),
        titles: open.iter().filter_map(|(_, title)| title.clone()).collect(),
    }
}

fn add(all: &mut [Drawn], open: &mut [(String, Option<String>)], text: &str) {
    let Some((innermost, outer)) = open.split_last_mut() else { return };
    if innermost.0 == "title" {
        if let Some((_, title)) = outer.last_mut() {
            title.get_or_insert_default().push_str(text);
        }
    } else if let Some(last) = all.last_mut() {
        last.text += text;
    }
}
