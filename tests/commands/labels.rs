//! Labels and care cards on the command line.

use crate::{Laptop, SMALL, arg};

/// A season of three benches.
fn laptop() -> Laptop {
    let laptop = Laptop::new();
    let more = "{\"type\":\"bench\",\"bench\":\"E2\",\"house\":\"East\",\"order\":2}\n\
                {\"type\":\"bench\",\"bench\":\"W1\",\"house\":\"West\",\"order\":3}\n";
    let journal = laptop.file("j.jsonl", &(SMALL.to_owned() + more));
    laptop.done(&["import", arg(&journal)]);
    laptop
}

/// What a scanner would read of each label, by the words for readers of the screen.
fn codes(page: &str) -> Vec<&str> {
    page.split("<desc>").skip(1).filter_map(|rest| rest.split("</desc>").next()?.rsplit(", code ").next()).collect()
}

#[test]
fn every_bench_has_a_label_and_one_is_printed_again() {
    let laptop = laptop();
    let all = laptop.done(&["labels"]);
    assert_eq!(codes(&all), ["=E1", "=E2", "=W1"]);
    assert!(all.contains("Letter paper") && all.contains("class=\"sheet labels letter\""), "US units: letter");
    assert_eq!((all.matches("class=\"qr\"").count(), all.matches("class=\"bars\"").count()), (3, 3));
    assert!(all.contains("house West") && all.contains("Thistlecot"), "{all}");
    assert_eq!(codes(&laptop.done(&["labels", "e2"])), ["=E2"]);
    assert_eq!(codes(&laptop.done(&["labels", "West", "E1-E2", "--paper", "a4"])), ["=W1", "=E1", "=E2"]);
    assert_eq!(codes(&laptop.done(&["labels", "R1"])), ["=E1"], "a lot, where it stands");
    let said = laptop.run(&["labels", "X9"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("X9 is not a bench, house or lot in this season"), "{said:?}");
}

#[test]
fn the_label_of_a_plot_has_its_number_and_never_its_treatment() {
    let laptop = crate::trial::t1().told();
    let page = laptop.done(&["labels", "T1"]);
    assert_eq!((codes(&page).len(), codes(&page)[1]), (24, "=T1.2"));
    assert!(page.contains(">2</text>") && page.contains("plot T1.2, bench M4 row 1 column 2"), "{page}");
    assert!(!page.contains("12 g") && !page.contains("8 g"), "{page}");
    assert_eq!(codes(&laptop.done(&["labels", "t1.2"])), ["=T1.2"]);
}

#[test]
fn care_cards_have_the_words_of_the_grower() {
    let laptop = laptop();
    let page = laptop.done(&["labels", "--care"]);
    assert_eq!(page.matches("<h2>Poinsettia</h2>").count(), 8);
    for word in ["dry between waterings", "Bright light", "Keep it warm", "sap may irritate"] {
        assert!(page.contains(word), "{word}");
    }
    let words = laptop.done(&["labels", "--care-words"]);
    let file = laptop.folders().config.join("care-card.txt");
    std::fs::create_dir_all(file.parent().unwrap()).unwrap();
    std::fs::write(&file, words.replace("Poinsettia", "Reds & whites")).unwrap();
    let page = laptop.done(&["labels", "--care", "--count", "12", "--paper", "a4"]);
    assert_eq!(page.matches("<h2>Reds &amp; whites</h2>").count(), 12);
    assert_eq!(page.matches("<section class=\"sheet cards a4\">").count(), 2);
    assert!(laptop.done(&["labels", "--care-words"]).starts_with("Reds & whites\n"));
    std::fs::write(&file, format!("Title\n\n{}\n", "x".repeat(201))).unwrap();
    let said = laptop.run(&["labels", "--care"]);
    assert_eq!(said.code, 2, "{said:?}");
    assert!(said.err.contains("care-card.txt: line 3 has 201 characters; at most 200 fit"), "{said:?}");
    assert_eq!(laptop.run(&["labels", "--care", "E1"]).code, 2);
}
