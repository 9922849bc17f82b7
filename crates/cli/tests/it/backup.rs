//! Backup and restore by command: there and back, and nothing lost when the copy is no copy.

use crate::household::Household;
use std::fs;
use std::path::Path;

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

#[test]
fn a_backup_brings_back_the_household_as_it_was_and_keeps_what_stood_there() {
    let household = Household::after_first_day();
    let elsewhere = tempfile::tempdir().unwrap();
    let copy = elsewhere.path().join("saturday.db");
    let before = household.rows();
    let stores = household.run(&["stores"]).fine().out;
    let said = household.run(&["backup", text(&copy)]).fine().out;
    assert!(said.contains("saturday.db"), "{said}");
    assert_eq!(names(elsewhere.path()), ["saturday.db"], "one whole file");

    household.run(&["take", "1", "quart", "3"]).fine();
    household.run(&["house", "burners=2"]).fine();
    let later = household.rows();
    assert_ne!(later, before);

    let said = household.run(&["restore", text(&copy)]).fine().out;
    assert_eq!(household.rows(), before);
    assert_eq!(household.run(&["stores"]).fine().out, stores);
    household.run(&["check"]).fine();

    // The file that stood there is named in the answer and holds what was done since.
    let kept: Vec<String> = names(household.folder())
        .into_iter()
        .filter(|name| name.contains("before-restore"))
        .collect();
    assert_eq!(kept.len(), 1, "{:?}", names(household.folder()));
    assert!(said.contains(&kept[0]), "{said}");
    let kept = household.folder().join(&kept[0]);
    household.run(&["restore", text(&kept)]).fine();
    assert_eq!(household.rows(), later);
    household.run(&["check"]).fine();
}

#[test]
fn a_backup_is_restored_into_an_empty_folder() {
    let household = Household::after_first_day();
    let elsewhere = tempfile::tempdir().unwrap();
    let copy = elsewhere.path().join("copy.db");
    household.run(&["backup", text(&copy)]).fine();
    let other = Household::empty();
    let said = other.run(&["restore", text(&copy)]).fine().out;
    assert!(!said.contains("kept"), "there was nothing to keep: {said}");
    assert_eq!(other.rows(), household.rows());
}

#[test]
fn an_older_copy_of_the_same_name_is_renewed() {
    let household = Household::after_first_day();
    let elsewhere = tempfile::tempdir().unwrap();
    let copy = elsewhere.path().join("copy.db");
    household.run(&["backup", text(&copy)]).fine();
    household.run(&["take", "1", "quart", "1"]).fine();
    household.run(&["backup", text(&copy)]).fine();
    let other = Household::empty();
    other.run(&["restore", text(&copy)]).fine();
    assert_eq!(other.rows(), household.rows());
    assert_eq!(names(elsewhere.path()), ["copy.db"]);
}

#[test]
fn what_is_no_sound_copy_is_not_restored_and_the_household_stays() {
    let household = Household::after_first_day();
    let before = household.rows();
    let elsewhere = tempfile::tempdir().unwrap();
    let write = |name: &str, bytes: &[u8]| {
        let path = elsewhere.path().join(name);
        fs::write(&path, bytes).unwrap();
        path
    };
    let sound = fs::read(household.file()).unwrap();
    let mut torn = sound.clone();
    // The roots of the tables lie behind the schema's page.
    for byte in &mut torn[4096 * 2..4096 * 30] {
        *byte ^= 0x5a;
    }
    let foreign = elsewhere.path().join("foreign.db");
    rusqlite::Connection::open(&foreign)
        .unwrap()
        .execute_batch("CREATE TABLE seen (bird TEXT)")
        .unwrap();
    for (copy, cause) in [
        (
            write("letter.txt", b"Dear Ida, the jars are in the cellar."),
            "is not a Stillroom data file",
        ),
        (
            write("noise.db", &[0x7f; 9000]),
            "is not a Stillroom data file",
        ),
        (write("half.db", &sound[..sound.len() / 2]), "is damaged"),
        (write("torn.db", &torn), "is damaged"),
        (foreign, "belongs to another program"),
        (elsewhere.path().join("gone.db"), "There is no file"),
    ] {
        let answer = household.run(&["restore", text(&copy)]);
        assert_ne!(answer.code, 0, "{}", copy.display());
        assert!(answer.err.contains(cause), "{}", answer.err);
        assert!(
            answer.err.lines().count() >= 2,
            "and what to do: {}",
            answer.err
        );
        assert_eq!(household.rows(), before, "{}", copy.display());
        assert_eq!(names(household.folder()), ["stillroom.db"]);
    }
    household.run(&["check"]).fine();
}

#[test]
fn a_backup_overwrites_nothing_that_is_no_copy() {
    let household = Household::after_first_day();
    let elsewhere = tempfile::tempdir().unwrap();
    let letter = elsewhere.path().join("letter.txt");
    fs::write(&letter, "Dear Ida").unwrap();
    let own = household.file();
    let nowhere = elsewhere.path().join("none/copy.db");
    for to in [letter.as_path(), own.as_path(), nowhere.as_path()] {
        let answer = household.run(&["backup", text(to)]);
        assert_ne!(answer.code, 0, "{}", to.display());
        assert!(answer.err.lines().count() >= 2, "{}", answer.err);
    }
    assert_eq!(fs::read_to_string(&letter).unwrap(), "Dear Ida");
    household.run(&["check"]).fine();
}

#[test]
fn serving_makes_one_copy_a_day_in_the_folder() {
    let household = Household::after_first_day();
    let copy = household.folder().join("copies/stillroom-2026-08-27.db");
    let served = crate::served::Served::on(&household);
    for _ in 0..100 {
        if copy.exists() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
    drop(served);
    assert_eq!(
        names(&household.folder().join("copies")),
        ["stillroom-2026-08-27.db"]
    );
    let other = Household::empty();
    other.run(&["restore", text(&copy)]).fine();
    assert_eq!(other.rows(), household.rows());
}

#[test]
fn a_household_in_use_is_copied_but_not_replaced() {
    let household = Household::after_first_day();
    let elsewhere = tempfile::tempdir().unwrap();
    let copy = elsewhere.path().join("copy.db");
    let served = crate::served::Served::on(&household);
    assert!(served.ask("GET /stores", "").contains("Tomato juice"));
    household.run(&["backup", text(&copy)]).fine();
    let before = household.rows();
    let answer = household.run(&["restore", text(&copy)]);
    assert_eq!(answer.code, 1, "{}", answer.out);
    assert!(answer.err.contains("in use"), "{}", answer.err);
    assert!(
        answer.err.contains("Stop the other program"),
        "{}",
        answer.err
    );
    assert_eq!(household.rows(), before);
    assert!(served.ask("GET /stores", "").contains("Tomato juice"));
    drop(served);
    household.run(&["restore", text(&copy)]).fine();
    assert_eq!(household.rows(), before);
}
