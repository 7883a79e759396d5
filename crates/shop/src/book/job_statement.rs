//! What people state of the papers of a job: permits, proofs that a joint holds no pressure, certificates, press charts, what
//! was bought. The stored form, of which `statement` tells the rules.

use jiff::civil::Date;
use measure::Ton;
use serde::{Deserialize, Serialize};

use super::id::{CardId, JobId};

/// What a paper of a job is. The list is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum JobPaper {
    /// Somebody who may repair proved that what is opened holds no pressure.
    ZeroProven,
    /// What is locked out, with whose lock.
    LockOut,
    /// Leave to go into a boiler, a tank or a smokebox.
    ConfinedSpace,
    /// Leave to weld, cut or burn.
    HotWork,
    /// A certificate of the material, with its heat.
    Certificate,
    /// A report from outside: a laboratory, a foundry, an inspector.
    OutsideReport,
    /// The weld procedure and the welder's papers.
    Weld,
    /// Tons against travel as it was pressed in.
    PressChart,
    /// Something bought for the job.
    Purchase,
}

impl JobPaper {
    /// All of them, in the order of the work.
    pub const ALL: [JobPaper; 9] = [
        JobPaper::ZeroProven,
        JobPaper::LockOut,
        JobPaper::ConfinedSpace,
        JobPaper::HotWork,
        JobPaper::Certificate,
        JobPaper::OutsideReport,
        JobPaper::Weld,
        JobPaper::PressChart,
        JobPaper::Purchase,
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            JobPaper::ZeroProven => "zero-proven",
            JobPaper::LockOut => "lock-out",
            JobPaper::ConfinedSpace => "confined-space",
            JobPaper::HotWork => "hot-work",
            JobPaper::Certificate => "certificate",
            JobPaper::OutsideReport => "outside-report",
            JobPaper::Weld => "weld",
            JobPaper::PressChart => "press-chart",
            JobPaper::Purchase => "purchase",
        }
    }

    /// Whether it is leave to do something that hurts people, given by whoever may approve, until a day.
    pub fn is_permit(self) -> bool {
        matches!(
            self,
            JobPaper::LockOut | JobPaper::ConfinedSpace | JobPaper::HotWork
        )
    }
}

/// A paper of a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JobPaperKept {
    /// Which job.
    pub job: JobId,
    /// What it is.
    pub kind: JobPaper,
    /// What it says, or how it was proved.
    pub told: String,
    /// The paper itself, by its name or number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub document: Option<String>,
    /// Until when leave was given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
    /// What it cost, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cost: Option<String>,
    /// Travel and tons at it, as written, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub points: Vec<(String, String)>,
    /// The least and the most tons the fit's sheet allows for the last point, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub window: Option<(String, String)>,
    /// The kept sheet that the window was taken from, or that a typed one is held against.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub window_from: Option<WindowFrom>,
}

/// A kept sheet that gives a window of tons.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct WindowFrom {
    /// The sheet.
    pub sheet: String,
    /// Its version.
    pub version: u32,
    /// The card that keeps it, and which revision of it; the job itself where there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<(CardId, u32)>,
    /// The tons that the press gauge reads.
    pub ton: Ton,
}
