//! Every kind: filled in, refused with a word beside its field, put right, saved, taken back.

use crate::desk::Desk;
use benchwalk::record::{KindName, Line, Term};

/// A form tried: what is typed first, what is told, what puts it right, what is written.
struct Case {
    kind: KindName,
    wrong: &'static str,
    told: &'static str,
    right: &'static str,
    written: &'static str,
}

const fn case(
    kind: KindName,
    wrong: &'static str,
    told: &'static str,
    right: &'static str,
    written: &'static str,
) -> Case {
    Case { kind, wrong, told, right, written }
}

fn cases() -> Vec<Case> {
    use KindName as K;
    vec![
        case(K::Watered, "8x", "unknown unit 'x'", "{Backspace}", "watered, 8 fl oz per pot"),
        case(K::Fed, "-5", "0 ppm or more", "{Backspace}{Backspace}200{Tab}30", "fed 200 ppm N, 30 ppm Mg"),
        case(K::Topdressed, "2000", "0 to 1000 g", "{Backspace}{Backspace}{Backspace}", "topdressed 2 g per pot"),
        case(K::Nutrient, "", "material is missing", "a{Tab}118{Tab}a", "magnesium sulfate drench at 118 ppm"),
        case(
            K::GrowthRegulator,
            "daminozide",
            "active ingredient and ppm",
            "{Space}1500{Tab}b{Tab}24{Tab}now",
            "daminozide 1500 ppm spray, closed 24 h",
        ),
        case(
            K::Sprayed,
            "soap{Tab}whitefly{Tab}a",
            "REI, hours is missing",
            "12{Enter}now",
            "soap spray against whitefly, closed 12 h",
        ),
        case(K::Released, "encarsia{Tab}0", "1 or more", "{Backspace}500", "released 500 encarsia"),
        case(K::Pinched, "", "method is missing", "a{Tab}6", "soft pinch, 6 nodes left"),
        case(
            K::Blackout,
            "then",
            "give 11/25 (month first), Nov 25",
            "{Backspace}{Backspace}{Backspace}{Backspace}-1{Tab}a",
            "night of Oct 11 covered",
        ),
        case(K::Lights, "-1", "lights on is missing", "b", "lights off on the night of Oct 11"),
        case(K::Spaced, "300", "0.4 to 190 in", "{Backspace}{Backspace}{Backspace}14", "spaced to 14 in centers"),
        case(K::Moved, "e9{Tab}10", "not a bench of this season", "{Backspace}2", "moved 10 pots to E2"),
        case(K::Sold, "500", "80", "{Backspace}{Backspace}", "sold 5 pots"),
        case(K::Climate, "400", "-76 to 150 °F", "{Backspace}", "climate, day 40 °F"),
        case(K::NightLight, "", "light is missing", "2{Space}fc", "night light 2 fc"),
        case(K::RootZone, "a", "give at least one", "5.8{Tab}2.4", "root zone by pour-through, pH 5.8, EC 2.40 mS/cm"),
        case(K::FeedCheck, "", "give at least one", "6.1", "at the hose, pH 6.1"),
        case(K::Losses, "0", "1 or more", "{Backspace}2{Tab}rot", "lost 2 pots (rot)"),
        case(K::Counted, "many", "a whole number", "{Backspace}{Backspace}{Backspace}{Backspace}79", "counted 79 pots"),
        case(K::Grade, "70{Tab}5", "dump is missing", "2", "graded: 70 salable, 5 seconds, 2 dumped"),
        case(K::Pests, "b{Tab}{Tab}{Tab}2{Tab}90", "days hung is missing", "7", "thrips 90 on 2 cards in 7 days"),
        case(K::Roots, "7", "from 0 to 5", "{Backspace}2{Tab}3{Tab}1", "roots 2 (1 of 3 pots bad)"),
        case(
            K::Leaves,
            "c{Tab}a{Tab}4{Tab}25:00",
            "give a time, or a day (month first) and a time: 2:30p",
            "{Backspace}{Backspace}{Backspace}{Backspace}{Backspace}",
            "leaves: wilted (old leaves), 4 plants",
        ),
        case(
            K::Height,
            "9.5{Space}tall",
            "tall",
            "{Backspace}{Backspace}{Backspace}{Backspace}9.8",
            "height 9.65 in (9.5 9.8)",
        ),
        case(K::Note, "", "the note itself", "drip", "note: drip"),
    ]
}

fn letter(kind: KindName) -> char {
    let at = KindName::offered().iter().position(|k| *k == kind).unwrap();
    char::from(b'a' + u8::try_from(at).unwrap())
}

#[test]
fn every_kind_has_its_case() {
    let tried: Vec<KindName> = cases().iter().map(|c| c.kind).collect();
    for kind in KindName::ALL {
        let elsewhere = matches!(
            kind,
            KindName::Water
                | KindName::Bracts
                | KindName::Greenness
                | KindName::BractWidth
                | KindName::PutOff
                | KindName::Strike
                | KindName::Job
        );
        assert_eq!(tried.contains(kind), !elsewhere, "{kind:?}");
        assert_eq!(KindName::offered().contains(kind), !elsewhere, "{kind:?}");
    }
}

#[test]
fn filled_refused_put_right_saved_and_taken_back() {
    for Case { kind, wrong, told, right, written } in cases() {
        let mut desk = Desk::new();
        desk.keys("a").keys(&letter(kind).to_string()).keys(wrong).keys("{Enter}");
        let text = desk.text();
        assert!(text.contains('!') && unfolded(&text).contains(told), "{kind:?}: no {told:?} in\n{text}");
        assert!(desk.written().is_empty(), "{kind:?}: {:?}", desk.written());
        desk.keys(right).keys("{Enter}");
        assert_eq!(desk.written(), [format!("E1 {written}")], "{kind:?}\n{}", desk.text());
        desk.keys("u");
        if matches!(kind, KindName::GrowthRegulator | KindName::Sprayed) {
            assert!(desk.text().contains("stays closed"), "{}", desk.text());
            desk.keys("slip{Enter}");
        }
        let entry = match &desk.kept[0] {
            Line::Entry(entry) => entry.clone(),
            other => panic!("{other:?}"),
        };
        let model = &desk.app.model;
        assert!(model.season.is_struck(&entry, model.day), "{kind:?}\n{}", desk.text());
        assert_eq!(desk.written().len(), 2);
    }
}

/// The text in one line, so that what is wrapped is found.
fn unfolded(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn nothing_is_lost_on_esc_and_the_form_comes_back_on_the_same_place() {
    let mut desk = Desk::new();
    desk.keys("ab200{Tab}3{Esc}{Esc}");
    assert!(desk.written().is_empty());
    desk.keys("jab");
    assert!(!desk.text().contains("200"), "another bench has its own\n{}", desk.text());
    desk.keys("{Esc}kab{Tab}0{Enter}");
    assert_eq!(desk.written(), ["E1 fed 200 ppm N, 30 ppm Mg"], "{}", desk.text());
    desk.keys("ab{Enter}");
    assert_eq!(desk.written().len(), 1, "after saving it is empty again");
}

#[test]
fn what_is_typed_is_as_a_person_sees_it_and_a_paste_comes_in_one_go() {
    use benchwalk::input::Event;
    let mut desk = Desk::new();
    desk.keys("ay");
    desk.event(Event::Paste("drip \u{1b}[31m\u{202e}at\nE1 e\u{301}日".to_owned()));
    desk.keys("{Backspace}{Backspace}{Enter}");
    assert_eq!(desk.written(), ["E1 note: drip [31mat E1"], "{}", desk.text());
    let mut desk = Desk::new();
    desk.keys("ay日本");
    let (_, cursor) = desk.draw();
    let wide = cursor.unwrap().x;
    desk.keys("{Left}");
    assert_eq!(desk.draw().1.unwrap().x, wide - 2, "a wide sign takes two cells");
}

#[test]
fn volumes_are_typed_in_any_unit() {
    for (typed, written) in [
        ("250{Space}mL", "watered, 8.45 fl oz per pot"),
        ("0.25L", "watered, 8.45 fl oz per pot"),
        ("8", "watered, 8 fl oz per pot"),
        ("0.5pt", "watered, 8 fl oz per pot"),
    ] {
        let mut desk = Desk::new();
        desk.keys("aa").keys(typed).keys("{Enter}");
        assert_eq!(desk.written(), [format!("E1 {written}")], "{typed}");
    }
}
