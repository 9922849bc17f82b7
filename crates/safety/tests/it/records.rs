//! Permit records: plain data that survives a store and arms nothing.

use crate::ask::{self, feet};
use crate::patched::patched;
use reference::{Jar, Method, Pack, Reference};
use safety::{AcidUse, Again, HeatQuestion, PermitRecord, ProduceHistory};

fn juice() -> HeatQuestion {
    let canner = ask::canner(Method::BoilingWater);
    let mut q = HeatQuestion::new("tomato-juice", Pack::Hot, Jar::Quart, canner, ask::TODAY);
    q.elevation = Some(feet(2500, 1));
    q.history = ProduceHistory::sound();
    q.acid = Some(AcidUse::whole("bottled-lemon-juice"));
    q
}

fn record() -> PermitRecord {
    let verdict = safety::judge_heat(Reference::embedded(), &juice());
    verdict.permit().expect("a permit").record()
}

#[test]
fn a_record_comes_back_from_text_unchanged() {
    let record = record();
    let text = serde_json::to_string(&record).expect("JSON");
    let back: PermitRecord = serde_json::from_str(&text).expect("record");
    assert_eq!(back, record);
    assert_eq!(
        back.chosen.row_key,
        "tomato-juice/hot/quart/boiling-water/1001-3000/1"
    );
    assert_eq!(back.edition, Reference::embedded().edition());
    assert!(
        back.acid
            .iter()
            .any(|line| line.chosen && line.amount == "2" && line.unit == "tbsp")
    );
}

#[test]
fn asked_again_the_same_tables_give_the_same_answer() {
    match safety::ask_again(Reference::embedded(), &record()) {
        Again::Same(permit) => assert_eq!(permit.minutes(), 45),
        Again::Changed(why) => panic!("{why}"),
    }
}

#[test]
fn a_corrected_cell_is_noticed() {
    let corrected = patched(
        "process/processes.csv",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,1001,3000,45,",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,1001,3000,50,",
    );
    assert_ne!(corrected.edition(), Reference::embedded().edition());
    match safety::ask_again(&corrected, &record()) {
        Again::Changed(why) => assert!(
            why.contains("45 min then") && why.contains("50 min now"),
            "{why}"
        ),
        Again::Same(_) => panic!("the correction went unnoticed"),
    }
}

#[test]
fn a_record_whose_facts_turned_bad_is_refused() {
    let mut record = record();
    record.question.history.dead_or_frosted_vine = safety::Answer::Yes;
    match safety::ask_again(Reference::embedded(), &record) {
        Again::Changed(why) => assert!(why.contains("dead-or-frosted-vine"), "{why}"),
        Again::Same(_) => panic!("a frosted lot kept its permit"),
    }
}

/// Twelve patched copies of the tables: each must change an answer.
#[test]
fn patched_tables_change_the_answer() {
    let sound = Reference::embedded();
    let beans = |psi: &str| {
        let mut q = HeatQuestion::new(
            "snap-and-italian-beans",
            Pack::Hot,
            Jar::Pint,
            safety::CannerFacts::Dial {
                error_psi: Some(quantity::parse::number(psi).expect("number")),
                tested_on: Some("2026-05-01".to_owned()),
            },
            ask::TODAY,
        );
        q.canner_holds_quart_jars = Some(4);
        q.elevation = Some(feet(1500, 1));
        q.history = ProduceHistory::sound();
        q
    };
    let plain = |food: &str, pack, jar, ft: i128| {
        let canner = ask::canner(Method::BoilingWater);
        let mut q = HeatQuestion::new(food, pack, jar, canner, ask::TODAY);
        q.elevation = Some(feet(ft, 1));
        q.history = ProduceHistory::sound();
        q.acid = Some(AcidUse::vinegar(quantity::whole(6)));
        q
    };
    let mut steam = juice();
    steam.canner = safety::CannerFacts::Steam;
    let at = |ft: i128| {
        let mut q = juice();
        q.elevation = Some(feet(ft, 1));
        q
    };
    let mut strong = plain("pickled-dilled-beans", Pack::Raw, Jar::Pint, 1500);
    strong.acid = Some(AcidUse::vinegar(quantity::whole(10)));
    let mut metric = juice();
    metric.jar = Jar::Litre1;
    metric.metric_jars_setting = true;
    let patches: [(&str, &str, &str, HeatQuestion); 12] = [
        (
            "process/processes.csv",
            "tomato-juice,Tomato juice,hot,quart,boiling-water,1001,3000,45,",
            "tomato-juice,Tomato juice,hot,quart,boiling-water,1001,2400,45,",
            juice(),
        ),
        (
            "process/practice.csv",
            "steam-canner-max-process,45,",
            "steam-canner-max-process,44,",
            steam,
        ),
        (
            "process/practice.csv",
            "dial-gauge-replace-over,2,",
            "dial-gauge-replace-over,1,",
            beans("2"),
        ),
        (
            "process/practice.csv",
            "max-psi,15,",
            "max-psi,12,",
            beans("2"),
        ),
        (
            "process/practice.csv",
            "smallest-canner-quarts,4,",
            "smallest-canner-quarts,5,",
            beans("0"),
        ),
        (
            "process/house_rules.csv",
            "gauge-test-max-age,1,",
            "gauge-test-max-age,0,",
            beans("0"),
        ),
        (
            "process/limits.csv",
            "longer time or higher pressure of the table\",must,1-10,1000,ft",
            "longer time or higher pressure of the table\",must,1-10,990,ft",
            at(1000),
        ),
        (
            "process/practice.csv",
            "jar-sterilise-needed-under,10,",
            "jar-sterilise-needed-under,5,",
            plain("pickled-dilled-beans", Pack::Raw, Jar::Pint, 500),
        ),
        (
            "process/limits.csv",
            "group:pickle,vinegar-5pct,\"Vinegar of known strength, 5 percent\",must,1-28,5,percent",
            "group:pickle,vinegar-5pct,\"Vinegar of known strength, 5 percent\",must,1-28,7,percent",
            plain("pickled-dilled-beans", Pack::Raw, Jar::Pint, 1500),
        ),
        (
            "process/house_rules.csv",
            "vinegar-dilution-max,10,",
            "vinegar-dilution-max,9,",
            strong,
        ),
        (
            "process/jar_sizes.csv",
            "1-litre,1 litre,1000,quart,",
            "1-litre,1 litre,1000,,",
            metric,
        ),
        (
            "process/acid_additions.csv",
            "tomato-juice,quart,bottled-lemon-juice,2,tbsp",
            "tomato-juice,quart,bottled-lemon-juice,3,tbsp",
            juice(),
        ),
    ];
    for (file, find, replace, question) in patches {
        let before = safety::judge_heat(sound, &question);
        let after = safety::judge_heat(&patched(file, find, replace), &question);
        // The edition always differs; what the household would do must differ too.
        let acts = |verdict: &safety::Verdict| match verdict {
            safety::Verdict::Refusal(refusal) => refusal.code.to_owned(),
            safety::Verdict::Permit(permit) => format!(
                "{:?} {:?} {:?}",
                permit.chosen(),
                permit.conditions(),
                permit.acid()
            ),
        };
        assert!(before.permit().is_some(), "{replace}: {before:?}");
        assert_ne!(acts(&before), acts(&after), "{replace}");
    }
}

#[test]
fn faulty_tables_refuse_and_never_guess() {
    // A hole: no row holds the place.
    let hole = patched(
        "process/processes.csv",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,1001,3000,45,",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,1001,2400,45,",
    );
    assert_eq!(
        safety::judge_heat(&hole, &juice())
            .refusal()
            .expect("refusal")
            .code,
        "above-table"
    );
    // An overlap: two rows hold it.
    let overlap = patched(
        "process/processes.csv",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,0,1000,40,",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,0,2600,40,",
    );
    assert_eq!(
        safety::judge_heat(&overlap, &juice())
            .refusal()
            .expect("refusal")
            .code,
        "no-single-row"
    );
    // A number that is gone: nothing stands in for it.
    let numberless = patched(
        "process/house_rules.csv",
        "elevation-floor,",
        "elevation-flaw,",
    );
    let refusal = safety::judge_heat(&numberless, &juice());
    assert_eq!(
        refusal.refusal().expect("refusal").code,
        "table-number-missing"
    );
    // No tables at all.
    let empty = Reference::default();
    assert_eq!(
        safety::judge_heat(&empty, &juice())
            .refusal()
            .expect("refusal")
            .code,
        "unknown-food"
    );
}
