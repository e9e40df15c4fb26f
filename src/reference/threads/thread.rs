//! A thread as its designation was understood, the system it belongs to, and where its row was taken from.

/// The system a thread belongs to, which also fixes its unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThreadSystem {
    /// Unified inch threads; every length is in inches.
    Unified,
    /// Metric M threads; every length is in millimeters.
    Metric,
    /// National pipe taper threads, in inches; the diameter is the outside diameter of the pipe.
    Npt,
    /// Parallel pipe threads G of ISO 228-1, in millimeters.
    PipeParallel,
    /// Pipe threads R, Rp and Rc of ISO 7-1, in millimeters; diameters are those of the gauge plane.
    PipeTaper,
    /// Whitworth threads, BSW and BSF, in inches.
    Whitworth,
    /// General purpose Acme threads, in inches.
    Acme,
    /// ISO metric trapezoidal threads, in millimeters.
    Trapezoidal,
}

impl ThreadSystem {
    /// Every system.
    pub const ALL: [ThreadSystem; 8] = [
        ThreadSystem::Unified,
        ThreadSystem::Metric,
        ThreadSystem::Npt,
        ThreadSystem::PipeParallel,
        ThreadSystem::PipeTaper,
        ThreadSystem::Whitworth,
        ThreadSystem::Acme,
        ThreadSystem::Trapezoidal,
    ];

    /// True where lengths are in inches.
    pub const fn in_inches(self) -> bool {
        matches!(self, ThreadSystem::Unified | ThreadSystem::Npt | ThreadSystem::Whitworth | ThreadSystem::Acme)
    }

    /// The angle between the flanks, in degrees.
    pub const fn flank_angle(self) -> f64 {
        match self {
            ThreadSystem::Unified | ThreadSystem::Metric | ThreadSystem::Npt => 60.0,
            ThreadSystem::PipeParallel | ThreadSystem::PipeTaper | ThreadSystem::Whitworth => 55.0,
            ThreadSystem::Acme => 29.0,
            ThreadSystem::Trapezoidal => 30.0,
        }
    }

    /// What its threads are called, in the plural.
    pub const fn words(self) -> &'static str {
        match self {
            ThreadSystem::Unified => "Unified",
            ThreadSystem::Metric => "metric",
            ThreadSystem::Npt => "National pipe taper",
            ThreadSystem::PipeParallel => "parallel pipe (G)",
            ThreadSystem::PipeTaper => "taper pipe (R, Rp, Rc)",
            ThreadSystem::Whitworth => "Whitworth",
            ThreadSystem::Acme => "Acme",
            ThreadSystem::Trapezoidal => "metric trapezoidal",
        }
    }

    /// The standard that its limits, or where it has none its sizes, come from.
    pub const fn standard(self) -> &'static str {
        match self {
            ThreadSystem::Unified => "ASME B1.1",
            ThreadSystem::Metric => "ISO 965-1",
            ThreadSystem::Npt => "ASME B1.20.1",
            ThreadSystem::PipeParallel => "ISO 228-1",
            ThreadSystem::PipeTaper => "ISO 7-1",
            ThreadSystem::Whitworth => "BS 84",
            ThreadSystem::Acme => "ASME B1.5",
            ThreadSystem::Trapezoidal => "ISO 2903",
        }
    }

    /// A thread of this system that is always right.
    pub const fn example(self) -> &'static str {
        match self {
            ThreadSystem::Unified => "1/4-20 UNC",
            ThreadSystem::Metric => "M8",
            ThreadSystem::Npt => "1/4-18 NPT",
            ThreadSystem::PipeParallel => "G 1/2",
            ThreadSystem::PipeTaper => "Rc 1/2",
            ThreadSystem::Whitworth => "1/4-20 BSW",
            ThreadSystem::Acme => "1-5 Acme",
            ThreadSystem::Trapezoidal => "Tr20x4",
        }
    }
}

/// Where a value was taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Provenance {
    /// Key of the source in data/sources.toml.
    pub source: &'static str,
    /// `standard`, `handbook`, `common practice` or `from memory`.
    pub trust: &'static str,
}

/// A thread as its designation was understood.
#[derive(Debug, Clone, PartialEq)]
pub struct Thread {
    /// The system it belongs to.
    pub system: ThreadSystem,
    /// Basic major diameter, in the unit of the system.
    pub diameter: f64,
    /// Distance from one thread to the next; exactly 1/tpi for threads in inches, to 0.001 mm for
    /// the pipe threads of ISO.
    pub pitch: f64,
    /// Threads per inch, where the standard counts them.
    pub threads_per_inch: Option<f64>,
    /// `UNC`, `UNF`, `UNEF`, `8-UN`, `UNS`; `coarse` or `fine`, absent for a metric size in no list;
    /// `NPT`, `G`, `R`, `Rp`, `Rc`, `BSW`, `BSF`, `Acme`, `Tr`.
    pub series: Option<String>,
    /// The size alone: `#10`, `1 1/4`, `M8`.
    pub size: String,
    /// The designation as this project writes it, without class: `1/4-20 UNC`, `M8x1`.
    pub designation: String,
    /// True where UNR was written: the root of the external thread is rounded. The limits are
    /// those of UN.
    pub rounded_root: bool,
    /// External class named in the designation, such as `2A` or `6g`.
    pub external_class: Option<String>,
    /// Internal class named in the designation, such as `2B` or `6H`.
    pub internal_class: Option<String>,
    /// True for a left-hand thread.
    pub left_hand: bool,
    /// Number of starts, 1 unless said.
    pub starts: u32,
    /// True for a combination in the list of its standard; false where it is only computed.
    pub standard: bool,
    /// For a combination in no list: the nearest listed ones. Else empty.
    pub nearest: Vec<String>,
    /// Where the list row was taken from; absent for a combination in no list.
    pub provenance: Option<Provenance>,
}

impl Thread {
    /// Advance in one turn: pitch times starts.
    pub fn lead(&self) -> f64 {
        self.pitch * f64::from(self.starts)
    }

    /// True for a thread on a cone of 1 in 16.
    pub fn is_taper(&self) -> bool {
        self.system == ThreadSystem::Npt || matches!(self.series.as_deref(), Some("R" | "Rc"))
    }

    /// False for Rp and Rc, which are internal threads only.
    pub fn has_external(&self) -> bool {
        !matches!(self.series.as_deref(), Some("Rp" | "Rc"))
    }

    /// False for R, which is an external thread only.
    pub fn has_internal(&self) -> bool {
        self.series.as_deref() != Some("R")
    }
}
