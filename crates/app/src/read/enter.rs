//! The blanks of a batch card: printed on the card and asked again when it comes back, from one
//! list, so that neither has a blank that the other lacks.

use crate::App;
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::house::House;
use crate::read::batch::{card_jar, must_do_of, outcome_containers};
use crate::view::Choice;
use crate::view::enter::{AskKind, EnterAsk, EnterPart, EnterView};
use crate::{balance, dates};
use kitchen::card::BatchCard;
use kitchen::recipe::{Recipe, Route};
use print::Code;

/// Where jars go that did not seal; empty first, as on the page of the live check.
const WAYS: [(&str, &str); 4] = [
    ("", "nowhere yet: they wait"),
    ("fridge", "fridge"),
    ("freezer", "freezer"),
    ("discarded", "thrown away"),
];

impl App {
    /// The batch that a code stands for and the blanks of its card that are still open.
    ///
    /// # Errors
    /// A text that is no code, a jar's code, a batch that does not exist or was called off.
    pub fn card_to_enter(&self, code: &str) -> Result<EnterView, AppError> {
        self.blanks_of(&self.facts()?, card_of_code(code)?)
    }

    /// The blanks of a batch's card that are still open.
    pub(crate) fn blanks_of(&self, facts: &Facts, id: i64) -> Result<EnterView, AppError> {
        let batch = facts.batch(id)?;
        if batch.state == BatchState::Cancelled {
            return Err(AppError::input(
                "code",
                format!("Batch {id} was called off."),
                "See the list of batches for the one that was made.",
            ));
        }
        let recipe = self.recipes.get(&batch.recipe)?;
        let house = balance::house_now(facts);
        let parts = self
            .card_parts(facts, &house, batch, recipe)?
            .into_iter()
            .filter(|part| match part.key.as_str() {
                "start" => !batch.has("started"),
                "seals" => !batch.has("seal-check"),
                _ => !batch.has("outcome"),
            })
            .collect();
        Ok(EnterView {
            batch: id,
            code: code_of_card(id)?,
            title: recipe.title.clone(),
            day: dates::day(batch.for_day),
            state: batch.state.word().to_owned(),
            parts,
        })
    }

    /// Where the page of a jar's code leads: the number of its batch.
    ///
    /// # Errors
    /// A text that is no code, or a batch that does not exist.
    pub fn batch_of_code(&self, code: &str) -> Result<i64, AppError> {
        let id = read_code(code)?.batch;
        self.facts()?.batch(id).map(|batch| batch.id)
    }

    /// All blanks of a batch's card, part by part.
    pub(crate) fn card_parts(
        &self,
        facts: &Facts,
        house: &House,
        batch: &BatchFact,
        recipe: &Recipe,
    ) -> Result<Vec<EnterPart>, AppError> {
        let mut parts = vec![part(
            "start",
            "Start: the food goes into the pot",
            vec![
                ask("start.day", "Day", "", AskKind::Day),
                ask("start.time", "At", "", AskKind::Time),
            ],
        )];
        if let Some(permit) = &batch.permit {
            parts.push(part(
                "ticks",
                "Before the clock starts",
                must_do_of(recipe, batch, permit)
                    .into_iter()
                    .map(|tick| ask(&tick.key, &tick.text, "", AskKind::Tick))
                    .collect(),
            ));
            let card = scaled_card(facts, house, batch, recipe)?;
            let loads = card.loads.as_ref().map_or(1, |loads| loads.loads);
            for load in 1..=loads {
                parts.push(part(
                    &format!("load.{load}"),
                    &format!(
                        "Load {load}: {}",
                        crate::read::verdict::pair_words(&permit.chosen)
                    ),
                    vec![
                        ask(
                            &format!("load.{load}.from"),
                            from_words(permit),
                            "",
                            AskKind::Time,
                        ),
                        ask(
                            &format!("load.{load}.end"),
                            "Heat off at",
                            "",
                            AskKind::Time,
                        ),
                        ask(
                            &format!("load.{load}.lifted"),
                            "Jars lifted at",
                            "",
                            AskKind::Time,
                        ),
                    ],
                ));
            }
        }
        let containers = sizes_at_hand(house, batch, recipe);
        parts.push(part(
            "outcome",
            "What came out",
            outcome(recipe, &containers),
        ));
        if recipe.route == Route::Heat {
            parts.push(part("seals", "The day after", seals(&containers)));
        }
        Ok(parts)
    }
}

/// Containers that can come out of a batch: the one it was set up with, and those that the house
/// says it has, so that a card is not full of blanks nobody fills.
fn sizes_at_hand(house: &House, batch: &BatchFact, recipe: &Recipe) -> Vec<Choice> {
    let all = outcome_containers(recipe, batch);
    let first = all.first().map(|choice| choice.key.clone());
    all.into_iter()
        .filter(|choice| {
            recipe.route != Route::Heat
                || Some(&choice.key) == first.as_ref()
                || house.jars.iter().any(|jar| jar.jar == choice.key)
        })
        .collect()
}

fn outcome(recipe: &Recipe, containers: &[Choice]) -> Vec<EnterAsk> {
    let mut asks = vec![ask("outcome.day", "Counted on", "day", AskKind::Day)];
    for container in containers {
        let name = format!("out.{}", container.key);
        asks.push(ask(&name, &container.title, "how many", AskKind::Count));
    }
    if recipe.route == Route::Heat {
        asks.push(ask(
            "partial",
            "Part jar, to the fridge",
            "such as 1 1/2 cups",
            AskKind::Text,
        ));
    }
    asks.push(ask("trimmings", "Trimmings", "weight", AskKind::Text));
    asks.push(EnterAsk {
        choices: vec![
            Choice::new("compost", "compost"),
            Choice::new("animals", "animals"),
        ],
        ..ask(
            "trimmings_to",
            "They went to",
            "compost or animals",
            AskKind::List,
        )
    });
    asks.push(ask(
        "cooked_off",
        "Boiled or dried away",
        "weight",
        AskKind::Text,
    ));
    asks.push(ask("note", "Note", "", AskKind::Text));
    asks
}

fn seals(containers: &[Choice]) -> Vec<EnterAsk> {
    let mut asks = vec![
        ask("seals.day", "Lids looked at on", "day", AskKind::Day),
        ask("seals.time", "At", "", AskKind::Time),
    ];
    for container in containers {
        let name = format!("failed.{}", container.key);
        let label = format!("{} that did not seal", container.title);
        asks.push(ask(&name, &label, "how many", AskKind::Count));
    }
    asks.push(EnterAsk {
        choices: WAYS
            .iter()
            .map(|(key, title)| Choice::new(*key, *title))
            .collect(),
        ..ask(
            "failed_to",
            "Those went to",
            "fridge, freezer, thrown away; empty: they wait",
            AskKind::List,
        )
    });
    asks
}

/// From when on a load's minutes count, in the words of its canner.
fn from_words(permit: &safety::PermitRecord) -> &'static str {
    use reference::Method;
    match permit.question.canner.method() {
        Method::DialGauge | Method::WeightedGauge => "Pressure reached at",
        Method::Steam => "Full steam at",
        _ => "Boils hard at",
    }
}

fn part(key: &str, title: &str, asks: Vec<EnterAsk>) -> EnterPart {
    EnterPart {
        key: key.to_owned(),
        title: title.to_owned(),
        asks,
    }
}

fn ask(name: &str, label: &str, hint: &str, kind: AskKind) -> EnterAsk {
    EnterAsk {
        name: name.to_owned(),
        label: label.to_owned(),
        hint: hint.to_owned(),
        kind,
        choices: Vec::new(),
    }
}

/// A batch's card with its canner loads and the headspace of its permit.
pub(crate) fn scaled_card(
    facts: &Facts,
    house: &House,
    batch: &BatchFact,
    recipe: &Recipe,
) -> Result<BatchCard, AppError> {
    let multiplier = quantity::exact_text::from_text(&batch.setup.units)?;
    let jar = card_jar(recipe, &batch.container);
    let mut card = crate::factor::own_card(facts, recipe, multiplier, jar, Some(batch.id))?;
    if let (Some(index), Some(jar)) = (crate::size::canner_index(house, &batch.setup.canner), jar) {
        let room = crate::read::house::jars_per_load(&house.canners[index], jar);
        let capacity = u32::try_from(room).unwrap_or(0);
        if capacity > 0 {
            card = card.with_canner(capacity)?;
        }
    }
    Ok(card.with_headspace(
        batch
            .permit
            .as_ref()
            .and_then(|permit| permit.headspace_in.as_deref()),
    ))
}

/// The code of a batch's card.
pub(crate) fn code_of_card(batch: i64) -> Result<String, AppError> {
    Ok(Code::of_card(batch).to_text()?)
}

fn read_code(text: &str) -> Result<Code, AppError> {
    Ok(Code::from_text(text)?)
}

/// The batch of a card's code.
pub(crate) fn card_of_code(text: &str) -> Result<i64, AppError> {
    let code = read_code(text)?;
    if code.container != 0 {
        return Err(AppError::input(
            "code",
            format!(
                "That is the code of a jar of batch {}, not of a card.",
                code.batch
            ),
            format!("The code of its card is {}.", code_of_card(code.batch)?),
        ));
    }
    Ok(code.batch)
}
