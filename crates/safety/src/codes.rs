//! Every code a refusal may carry, with its cause and what to do.

/// One refusal code as the documentation lists it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CodeInfo {
    /// The code, as it stands in JSON and on pages.
    pub code: &'static str,
    /// When it comes.
    pub cause: &'static str,
    /// What the household does instead.
    pub action: &'static str,
}

macro_rules! codes {
    ($($name:ident = $code:literal, $cause:literal, $action:literal;)+) => {
        $(#[doc = $cause] pub const $name: &str = $code;)+
        /// Every code, in the order the gate asks.
        pub const CODES: &[CodeInfo] = &[$(CodeInfo { code: $code, cause: $cause, action: $action }),+];
    };
}

codes! {
    UNKNOWN_FOOD = "unknown-food",
        "The food is not in the tested tables.",
        "Choose one of the foods named in the message, or freeze or refrigerate it.";
    REFRIGERATOR_ONLY = "refrigerator-only",
        "The publication gives this food no heat process; it is made for the refrigerator.",
        "Refrigerate it and use it within the time printed for it.";
    RECIPE_NOT_TESTED = "recipe-not-tested",
        "The recipe named is not one of the tested recipes.",
        "Follow a tested recipe, or freeze or refrigerate this one.";
    RECIPE_OTHER_FOOD = "recipe-other-food",
        "The recipe belongs to another food of the tables.",
        "Ask with the food that the recipe uses.";
    RECIPE_DOUBTFUL = "recipe-doubtful",
        "An amount of the recipe could not be read, or the recipe stands on a single page outside the guide.",
        "Refrigerate or freeze it, or take another recipe.";
    NO_LOW_TEMPERATURE = "no-low-temperature",
        "The 180 to 185 F treatment was asked for a food or a canner that has none printed.",
        "Ask without the treatment, for the process that the tables print.";
    DEAD_OR_FROSTED_VINE = "dead-or-frosted-vine",
        "Tomatoes from a dead or frost-killed vine are never canned, or nobody has said that they are not.",
        "Answer the lot's history; fruit of a dead or frosted vine is eaten fresh, frozen or dried.";
    DISEASED = "diseased",
        "The produce is diseased or comes from a blighted plant, or nobody has said that it does not.",
        "Answer the lot's history; eat sound parts fresh or freeze them, compost the rest.";
    HISTORY_UNKNOWN = "history-unknown",
        "Tomatoes whose history nobody has told are not for jars.",
        "Answer the lot's history once: vine, disease, splits, frozen before.";
    FROZEN_BEFORE = "frozen-before",
        "No printed process covers this food made of produce that has been frozen.",
        "Use it from the freezer; thawed tomatoes may become juice, sauce or crushed tomatoes.";
    LOW_ACID_NEEDS_PRESSURE = "low-acid-needs-pressure",
        "Low-acid food in boiling water or steam: no such process exists.",
        "Use a pressure canner, or freeze it.";
    METHOD_NOT_LISTED = "method-not-listed",
        "The tables print no process for this food in this kind of canner.",
        "Use a canner the message names, or freeze it.";
    PACK_NOT_LISTED = "pack-not-listed",
        "The tables print no process for this pack style.",
        "Pack it as the message says.";
    QUESTION_UNANSWERED = "question-unanswered",
        "The food asks a question whose answer changes the table.",
        "Answer it with one of the words in the message.";
    ANSWER_CLOSES_TABLE = "answer-closes-table",
        "With this answer the table does not serve the food.",
        "Do what the message says instead.";
    JAR_TOO_LARGE = "jar-too-large",
        "The jar is larger than the largest one tested for this food.",
        "Use a jar size the message names; never a larger one.";
    NO_ELEVATION = "no-elevation",
        "Without the elevation of the kitchen there is no process time.",
        "Enter the elevation of the house, in feet or metres.";
    ABOVE_DIAL_CEILING = "above-dial-ceiling",
        "The dial-gauge tables end below this elevation.",
        "Use a weighted gauge or boiling water where the food has such a row, or freeze it.";
    ABOVE_TABLE = "above-table",
        "The printed pair ends below this elevation.",
        "Use another pair or method the message names.";
    NO_SUCH_OPTION = "no-such-option",
        "The table has no pair with this number.",
        "Choose one of the pairs printed.";
    PAIR_NOT_RECOMMENDED = "pair-not-recommended",
        "The table prints this pair as not recommended at this elevation.",
        "Use another printed pair.";
    DOUBTFUL_SHOW_ONLY = "doubtful-show-only",
        "The cell is doubtful: it is shown with its mark and carries no permit.",
        "Use another printed pair or method.";
    CANNER_SIZE_UNKNOWN = "canner-size-unknown",
        "Nobody has said how much the pressure canner holds.",
        "Enter how many quart jars stand upright on its rack (for smoked fish also its volume).";
    NOT_A_CANNER = "not-a-canner",
        "The vessel is smaller than the smallest canner the publication allows.",
        "Use a pressure canner that holds enough jars upright, or freeze the food.";
    GAUGE_UNTESTED = "gauge-untested",
        "The dial gauge was never tested, or its error is not known: look-up only.",
        "Have the gauge tested; use boiling water where the food has such a row.";
    GAUGE_TEST_OLD = "gauge-test-old",
        "The last test of the dial gauge is too old, or its date cannot be read.",
        "Have the gauge tested; use boiling water where the food has such a row.";
    GAUGE_REPLACE = "gauge-replace",
        "The dial gauge is off by more than may be corrected.",
        "Replace the gauge.";
    OVER_MAX_PRESSURE = "over-max-pressure",
        "Printed pressure and gauge error together exceed the highest pressure allowed.",
        "Replace or repair the gauge, use a weighted gauge, or freeze the food.";
    WEIGHT_MISSING = "weight-missing",
        "The house does not own the weight of the printed pair; a higher one never replaces it.",
        "Get that weight, or use another method or the freezer.";
    STEAM_TOO_LONG = "steam-too-long",
        "The process is longer than a steam canner may run, elevation included.",
        "Use boiling water.";
    JARS_NOT_STERILE = "jars-not-sterile",
        "The printed time is short and asks for jars that were boiled empty.",
        "Boil the empty jars for the minutes in the message.";
    ACID_NOT_CHOSEN = "acid-not-chosen",
        "The food needs acid in each jar and nobody has said which.",
        "Choose one of the listed acids.";
    ACID_NOT_LISTED = "acid-not-listed",
        "The acid is not one the publication lists for this food.",
        "Use a listed acid, bottled where it says so.";
    ACID_NOT_WHOLE = "acid-not-whole",
        "Part of one acid and part of another, or less than the printed amount.",
        "Use one listed acid in its whole amount.";
    VINEGAR_STRENGTH_UNKNOWN = "vinegar-strength-unknown",
        "The recipe uses vinegar and its strength is not known.",
        "Read the percent on the label; home-made vinegar is not for canning.";
    VINEGAR_TOO_WEAK = "vinegar-too-weak",
        "The vinegar is weaker than the recipe asks.",
        "Use vinegar of at least the strength in the message.";
    VINEGAR_TOO_STRONG = "vinegar-too-strong",
        "The vinegar is stronger than this program will dilute or use.",
        "Buy table vinegar of 5 percent.";
    LOAD_EMPTY = "load-empty",
        "No jars were named for a canner load.",
        "Name the jars that are to go into the canner.";
    LOAD_TWO_CANNERS = "load-two-canners",
        "The jars of a load are not asked for one canner, in one place, on one day.",
        "Ask with the same canner for all of them, or run two loads.";
    LOAD_OWN_RUN = "load-own-run",
        "A food whose canner is started in its own way, or the 180 to 185 F treatment, with other jars.",
        "Run it as a load of its own.";
    LOAD_START_DIFFERS = "load-start-differs",
        "Hot and raw packs in one load: they start in water of different heat.",
        "Run the hot packs and the raw packs as two loads.";
    LOAD_PRESSURE_DIFFERS = "load-pressure-differs",
        "The jars of a load share no printed pair of one pressure.",
        "Run them as separate loads, each by its own line.";
    NO_SINGLE_ROW = "no-single-row",
        "The question does not lead to exactly one printed row.",
        "Report it: the tables are at fault.";
    TABLE_NUMBER_MISSING = "table-number-missing",
        "A number the gate must compare with is not in the tables.",
        "Report it: the tables are at fault.";
    BAD_DATE = "bad-date",
        "The day of the question cannot be read.",
        "Give the day as year-month-day, such as 2026-08-14.";
    NOT_FOR_FRIDGE = "not-for-fridge",
        "This food must not be kept in the refrigerator.",
        "Freeze it, or do as the message says.";
    DISCARD = "discard",
        "The jar was wrongly processed or its history is unknown.",
        "Do not open or taste it; follow the disposal card.";
    FERMENT_SALT = "ferment-salt",
        "The salt of the ferment is below the printed amount or not known.",
        "Weigh the salt the recipe prints.";
    FERMENT_ROOM = "ferment-room",
        "The room is outside the printed temperatures, or nobody has said how warm it is.",
        "Find a place within the printed temperatures.";
    NOT_WHOLE = "not-whole",
        "Only whole raw produce keeps in this place.",
        "Refrigerate it and eat it soon, or freeze it.";
    NOT_DRY = "not-dry",
        "Half-dried food does not keep at room temperature.",
        "Dry it fully, or freeze it.";
    NEEDS_PERMIT = "needs-permit",
        "Jars keep on a shelf only with a heat process the gate permits.",
        "Ask for the heat process first.";
}
