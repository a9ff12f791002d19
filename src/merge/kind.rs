//! The kinds of record that travel, and the fields of each: the file's format.

use crate::words::Message;

use serde::{Deserialize, Serialize};

use super::history::REMOVED;

/// What may stand in a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldShape {
    /// Text of at most so many characters.
    Text(usize),
    /// A whole number, at least 0.
    Whole,
    /// A finite number.
    Number,
    /// True or false.
    Flag,
    /// The id of a record of that kind.
    Id(Kind),
    /// A JSON object, as the job file has it in that place.
    Part,
    /// The owner of a note or measurement: an object with one key of `donor`, `core`, `job` or
    /// `design`, and an id.
    Owner,
    /// What happened, oldest first: texts of at most so many characters.
    Lines(usize),
}

/// What judges a value beyond its shape. Every value is judged, shown or not, since a person may
/// choose any of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// Its shape is all.
    FieldShape,
    /// The rows of the field table for this place in a job file.
    Table(&'static str),
    /// The metals of a primary winding.
    Metal,
    /// What was seen of a donor.
    Look,
    /// What a core shall become.
    Goal,
    /// How it is run.
    Conditions,
    /// A winding.
    Choice,
    /// What was marked on a photo.
    Marks,
    /// What a winding comes to, or what a run of bench tests should find.
    Plan,
    /// The word of a procedure that belongs to a job.
    JobProcedure,
    /// Words without control characters but line ends and tabs, or a list of such.
    Words,
    /// Words in one line.
    OneLine,
    /// The number of a device.
    Device,
}

/// One field of a kind.
#[derive(Debug, Clone, Copy)]
pub struct FieldSpec {
    /// Its key in `values`. A key that ends in a dot stands for every key that begins so.
    pub key: &'static str,
    /// What may stand in it.
    pub shape: FieldShape,
    /// Whether it may be null or left out.
    pub optional: bool,
    /// What judges it.
    pub rule: Rule,
    /// Its path in the record as this program has it, where that is another one than its key.
    pub path: Option<&'static str>,
}

impl FieldSpec {
    const fn by(mut self, rule: Rule) -> Self {
        self.rule = rule;
        self
    }

    const fn at(mut self, path: &'static str) -> Self {
        self.path = Some(path);
        self
    }
}

const fn must(key: &'static str, shape: FieldShape) -> FieldSpec {
    FieldSpec {
        key,
        shape,
        optional: false,
        rule: Rule::FieldShape,
        path: None,
    }
}

const fn may(key: &'static str, shape: FieldShape) -> FieldSpec {
    FieldSpec {
        key,
        shape,
        optional: true,
        rule: Rule::FieldShape,
        path: None,
    }
}

/// A kind of record. The order is that of the file: what a record belongs to comes before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A machine that a transformer comes from.
    Donor,
    /// A core.
    Core,
    /// A job.
    Job,
    /// A winding that was kept for comparison.
    Design,
    /// A wire on the shelf.
    Stock,
    /// A value read, once; what holds now is said by the fields `reading.…` of its owner.
    Measurement,
    /// A note.
    Note,
    /// A photo of a donor. Its picture is a file of its own.
    Photo,
    /// A photo of a core, with its marks.
    CorePhoto,
    /// What happened in a donor's teardown on one device. A record only: no gate is passed by it
    /// on another.
    Teardown,
    /// What happened in one winding or one run of bench tests. A record only, as with the teardown.
    JobRun,
}

/// The longest text of a field, in characters.
pub const LONGEST_TEXT: usize = 20_000;
/// The largest picture of a photo, in bytes: 16 MiB.
pub const LARGEST_PICTURE: usize = 16 << 20;
/// The longest line of a history, in characters.
pub const LONGEST_LINE: usize = 4_000;
/// The longest history that one device writes, in bytes: a line of a shelf file holds two of them that
/// became one.
pub const LONGEST_HISTORY: usize = 400_000;

const DONOR: &[FieldSpec] = &[
    must("name", FieldShape::Text(200)).by(Rule::Table("donor.name")),
    may("hertz", FieldShape::Whole).by(Rule::Table("donor.hertz")),
    may("look.", FieldShape::Part).by(Rule::Look),
    must("notes", FieldShape::Text(LONGEST_TEXT)).by(Rule::Table("donor.notes")),
    must("created_ms", FieldShape::Whole),
    must("edited_ms", FieldShape::Whole),
    may("reading.", FieldShape::Id(Kind::Measurement)),
];
const CORE: &[FieldSpec] = &[
    may("donor", FieldShape::Id(Kind::Donor)),
    must("shunts_kept", FieldShape::Flag).at("core.shunts_kept"),
    must("primary_metal", FieldShape::Text(60))
        .by(Rule::Metal)
        .at("core.primary.metal"),
    must("rated_volts", FieldShape::Number)
        .by(Rule::Table("core.primary.rated_volts"))
        .at("core.primary.rated_volts"),
    must("rated_hertz", FieldShape::Whole)
        .by(Rule::Table("core.primary.rated_hertz"))
        .at("core.primary.rated_hertz"),
    must("created_ms", FieldShape::Whole),
    must("edited_ms", FieldShape::Whole),
    may("reading.", FieldShape::Id(Kind::Measurement)),
];
const JOB: &[FieldSpec] = &[
    must("name", FieldShape::Text(200)).by(Rule::Table("name")),
    must("core", FieldShape::Id(Kind::Core)),
    must("mains_hertz", FieldShape::Whole)
        .by(Rule::Table("mains.hertz"))
        .at("mains.hertz"),
    must("breaker_a", FieldShape::Number)
        .by(Rule::Table("mains.circuit.breaker_a"))
        .at("mains.circuit.breaker_a"),
    must("plug", FieldShape::Text(60))
        .by(Rule::Table("mains.circuit.plug"))
        .at("mains.circuit.plug"),
    must("goal", FieldShape::Part).by(Rule::Goal),
    may("conditions.", FieldShape::Part).by(Rule::Conditions),
    may("choice", FieldShape::Part).by(Rule::Choice),
    must("note", FieldShape::Text(LONGEST_TEXT)).by(Rule::Table("note")),
    must("created_ms", FieldShape::Whole),
    must("edited_ms", FieldShape::Whole),
    may("reading.", FieldShape::Id(Kind::Measurement)),
];
const DESIGN: &[FieldSpec] = &[
    must("job", FieldShape::Id(Kind::Job)),
    must("name", FieldShape::Text(200)).by(Rule::Table("name")),
    must("choice", FieldShape::Part).by(Rule::Choice),
    must("note", FieldShape::Text(LONGEST_TEXT)).by(Rule::Table("note")),
    must("created_ms", FieldShape::Whole),
    must("edited_ms", FieldShape::Whole),
    may("reading.", FieldShape::Id(Kind::Measurement)),
];
const STOCK: &[FieldSpec] = &[
    must("conductor", FieldShape::Text(60)).by(Rule::Table("stock[].conductor")),
    must("length_m", FieldShape::Number).by(Rule::Table("stock[].length_m")),
    may("price_per_m", FieldShape::Number).by(Rule::Table("stock[].price_per_m")),
    must("created_ms", FieldShape::Whole),
    must("edited_ms", FieldShape::Whole),
];
const MEASUREMENT: &[FieldSpec] = &[
    must("owner", FieldShape::Owner),
    must("field", FieldShape::Text(80)).by(Rule::OneLine),
    must("value", FieldShape::Number),
    must("plus_minus", FieldShape::Number),
    must("origin", FieldShape::Text(60)),
    must("created_ms", FieldShape::Whole),
];
const NOTE: &[FieldSpec] = &[
    must("owner", FieldShape::Owner),
    must("text", FieldShape::Text(LONGEST_TEXT)).by(Rule::Words),
    must("created_ms", FieldShape::Whole),
    must("edited_ms", FieldShape::Whole),
];
const PHOTO: &[FieldSpec] = &[
    must("donor", FieldShape::Id(Kind::Donor)),
    must("what", FieldShape::Text(200)).by(Rule::OneLine),
    must("kind", FieldShape::Text(20)),
    must("sha256", FieldShape::Text(64)),
    must("created_ms", FieldShape::Whole),
];
const CORE_PHOTO: &[FieldSpec] = &[
    must("core", FieldShape::Id(Kind::Core)),
    must("what", FieldShape::Text(200)).by(Rule::OneLine),
    must("kind", FieldShape::Text(20)),
    may("marks", FieldShape::Part).by(Rule::Marks),
    must("sha256", FieldShape::Text(64)),
    must("created_ms", FieldShape::Whole),
];
const TEARDOWN: &[FieldSpec] = &[
    must("donor", FieldShape::Id(Kind::Donor)),
    must("device", FieldShape::Text(16)).by(Rule::Device),
    must("device_name", FieldShape::Text(60)).by(Rule::Words),
    must("lines", FieldShape::Lines(LONGEST_LINE)).by(Rule::Words),
];
const JOB_RUN: &[FieldSpec] = &[
    must("job", FieldShape::Id(Kind::Job)),
    must("device", FieldShape::Text(16)).by(Rule::Device),
    must("device_name", FieldShape::Text(60)).by(Rule::Words),
    must("procedure", FieldShape::Text(20)).by(Rule::JobProcedure),
    must("plan", FieldShape::Part).by(Rule::Plan),
    must("lines", FieldShape::Lines(LONGEST_LINE)).by(Rule::Words),
    must("created_ms", FieldShape::Whole),
];

impl Kind {
    /// All, in the order of the file.
    pub const ALL: [Kind; 11] = [
        Kind::Donor,
        Kind::Core,
        Kind::Job,
        Kind::Design,
        Kind::Stock,
        Kind::Measurement,
        Kind::Note,
        Kind::Photo,
        Kind::CorePhoto,
        Kind::Teardown,
        Kind::JobRun,
    ];

    /// Its word in the file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Donor => "donor",
            Kind::Core => "core",
            Kind::Job => "job",
            Kind::Design => "design",
            Kind::Stock => "stock",
            Kind::Measurement => "measurement",
            Kind::Note => "note",
            Kind::Photo => "photo",
            Kind::CorePhoto => "core_photo",
            Kind::Teardown => "teardown",
            Kind::JobRun => "job_run",
        }
    }

    /// What a person calls such a record, in a sentence about it.
    #[must_use]
    pub fn named(self) -> Message {
        Message::new(format!("refused-what-{}", self.word().replace('_', "-")))
    }

    /// The kind with this word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Kind::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// Its fields.
    #[must_use]
    pub const fn fields(self) -> &'static [FieldSpec] {
        match self {
            Kind::Donor => DONOR,
            Kind::Core => CORE,
            Kind::Job => JOB,
            Kind::Design => DESIGN,
            Kind::Stock => STOCK,
            Kind::Measurement => MEASUREMENT,
            Kind::Note => NOTE,
            Kind::Photo => PHOTO,
            Kind::CorePhoto => CORE_PHOTO,
            Kind::Teardown => TEARDOWN,
            Kind::JobRun => JOB_RUN,
        }
    }

    /// The field of a key.
    #[must_use]
    pub fn field(self, key: &str) -> Option<&'static FieldSpec> {
        self.fields().iter().find(|field| match field.key.strip_suffix('.') {
            Some(_) => key.starts_with(field.key) && key.len() > field.key.len() && key.len() <= 120,
            None => field.key == key,
        })
    }

    /// Whether notes and measurements may belong to it.
    #[must_use]
    pub const fn owns(self) -> bool {
        matches!(self, Kind::Donor | Kind::Core | Kind::Job | Kind::Design)
    }

    /// Whether it can be without any other record.
    #[must_use]
    pub const fn stands_alone(self) -> bool {
        matches!(self, Kind::Donor | Kind::Core | Kind::Stock)
    }

    /// Whether a field of such a record is written once, with the record: a later file that says something
    /// else of it is not followed. A reading is judged as a whole, and a picture is what its sum says.
    #[must_use]
    pub fn is_written_once(self, field: &str) -> bool {
        match self {
            Kind::Measurement => field != REMOVED,
            Kind::Photo | Kind::CorePhoto => matches!(field, "sha256" | "kind" | "created_ms"),
            _ => false,
        }
    }

    /// Whether its picture is a file of its own.
    #[must_use]
    pub const fn has_picture(self) -> bool {
        matches!(self, Kind::Photo | Kind::CorePhoto)
    }
}
