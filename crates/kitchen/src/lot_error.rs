//! What can be wrong with a lot: its crop, grade, place, weight or date; each says what helps.

/// A question about a lot that has no answer as asked.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LotError {
    /// No crop of that name.
    #[error("there is no crop called \"{text}\"; {hint}")]
    UnknownCrop {
        /// The text as typed.
        text: String,
        /// "did you mean ..." or what a crop key looks like.
        hint: String,
    },
    /// A name that several crops share.
    #[error("\"{text}\" could be {choices}; say which")]
    AmbiguousCrop {
        /// The text as typed.
        text: String,
        /// The crops it may mean, as keys.
        choices: String,
    },
    /// No grade of that name for this crop.
    #[error("{plural} have no grade \"{text}\"; {hint}")]
    UnknownGrade {
        /// The crop's plural.
        plural: String,
        /// The text as typed.
        text: String,
        /// The grades it does have.
        hint: String,
    },
    /// A place that keeps no fresh food.
    #[error("fresh food does not lie in \"{text}\"; write counter, cold-room or fridge")]
    UnknownPlace {
        /// The text as typed.
        text: String,
    },
    /// Colder than fresh produce bears.
    #[error(
        "at {temperature} {plural} freeze; give the temperature of a place above 32 F, or freeze them as a batch"
    )]
    Freezing {
        /// The temperature in both scales.
        temperature: String,
        /// The crop's plural.
        plural: String,
    },
    /// Warmer than any figure reaches.
    #[error(
        "no keeping figure reaches {temperature}; move {plural} to a cooler place and give its temperature"
    )]
    TooWarm {
        /// The temperature in both scales.
        temperature: String,
        /// The crop's plural.
        plural: String,
    },
    /// The storage table has no line for this.
    #[error(
        "the tables have no keeping time for {plural} ({grade}); use them today or enter your own record"
    )]
    NoKeeping {
        /// The crop's plural.
        plural: String,
        /// The grade's title.
        grade: String,
    },
    /// Picked on a day that has not come.
    #[error("picked on {picked} lies after today, {today}; check the date")]
    PickedInFuture {
        /// The date as given.
        picked: jiff::civil::Date,
        /// Today.
        today: jiff::civil::Date,
    },
    /// A date the calendar does not hold.
    #[error("a keeping date counted from {picked} is beyond the calendar; check the picking date")]
    DateOutOfRange {
        /// The picking date.
        picked: jiff::civil::Date,
    },
    /// Not a share of a crate.
    #[error(
        "\"{text}\" is not a share of a crate; write for example two thirds, 2/3, half or full"
    )]
    UnknownShare {
        /// The text as typed.
        text: String,
    },
    /// Nothing, or far more crates than one picking fills.
    #[error("\"{text}\" of a crate is not believed here (above 0, at most {most} crates)")]
    AbsurdShare {
        /// The text as typed.
        text: String,
        /// The most that is believed.
        most: i64,
    },
    /// The crate tells neither litres nor a weight for this crop.
    #[error(
        "{crate_name} is not known to hold any {plural}: weigh it full of {plural} once, or give its litres"
    )]
    CrateUnknown {
        /// The crate.
        crate_name: String,
        /// The crop's plural.
        plural: String,
    },
    /// Litres are known, but no published weight per litre.
    #[error(
        "no published weight per litre for {plural}: weigh {crate_name} full of them once, then any share of it is known"
    )]
    NoBulkWeight {
        /// The crop's plural.
        plural: String,
        /// The crate.
        crate_name: String,
    },
    /// An answer that is neither yes, no nor unknown.
    #[error("\"{text}\" is no answer here; write yes, no or unknown")]
    UnknownAnswer {
        /// The text as typed.
        text: String,
    },
    /// A question about a lot's history that is not asked.
    #[error("there is no history question \"{text}\"; the questions are {known}")]
    UnknownQuestion {
        /// The text as typed.
        text: String,
        /// The questions' keys.
        known: String,
    },
    /// An animal the feeding table does not know.
    #[error("the feeding table knows no \"{text}\"; it knows {known}")]
    UnknownAnimal {
        /// The text as typed.
        text: String,
        /// The animals it knows.
        known: String,
    },
    /// An amount that does not compute.
    #[error(transparent)]
    Quantity(#[from] quantity::QuantityError),
}
