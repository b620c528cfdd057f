//! The page itself: tables by kind, the grid study, and every miss with its reason.

use super::grid;
use super::misses::KNOWN;
use super::numbers;
use super::rows::{Kind, Published, Row};
use numerics::decimal::fixed;

/// Everything that the page says.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// All lines.
    pub rows: Vec<Row>,
    /// The grid study.
    pub studies: Vec<grid::Study>,
}

impl Found {
    /// Works everything out.
    pub fn new() -> Self {
        let mut rows = numbers::numbers();
        rows.extend(super::relations::relations());
        rows.extend(super::life::life());
        rows.extend(super::doughs::doughs());
        rows.extend(super::bread::bread());
        Self {
            rows,
            studies: grid::studies(),
        }
    }

    /// What is missed, common practice left out, and how far, in words.
    pub fn missed(&self) -> Vec<(String, String)> {
        let mut all: Vec<(String, String)> = self
            .rows
            .iter()
            .filter(|row| row.kind != Kind::Plausibility && row.is_missed())
            .map(|row| (row.what.clone(), miss(row)))
            .collect();
        let grids = grid::beyond(&self.studies);
        all.extend(grids.into_iter().map(|one| (one.what, one.off)));
        all
    }
}

impl Default for Found {
    fn default() -> Self {
        Self::new()
    }
}

fn published(row: &Row) -> String {
    match row.published {
        Published::One(figure) => number(figure, row.decimals),
        Published::Between(low, high) if (high - low).abs() < 1e-12 => number(low, row.decimals),
        Published::Between(low, high) => {
            format!(
                "{}–{}",
                number(low, row.decimals),
                number(high, row.decimals)
            )
        }
    }
}

fn number(figure: f64, decimals: usize) -> String {
    fixed(figure, decimals).replace('-', "−")
}

fn miss(row: &Row) -> String {
    let Some(miss) = row.miss() else {
        return "does not happen".to_owned();
    };
    if miss == 0.0 || fixed(miss.abs(), row.decimals) == fixed(0.0, row.decimals) {
        return "none".to_owned();
    }
    grid::signed(miss, row.decimals, row.unit)
        .trim_end()
        .to_owned()
}

fn section(rows: &[Row], kind: Kind) -> String {
    let own: Vec<&Row> = rows.iter().filter(|row| row.kind == kind).collect();
    let mut text = String::from(
        "| what | source | published | ours | miss | kind |\n|---|---|---|---|---|---|\n",
    );
    for row in own {
        let ours = row
            .ours
            .map_or_else(|| "–".to_owned(), |ours| number(ours, row.decimals));
        let mut miss = miss(row);
        if kind != Kind::Plausibility && row.is_missed() {
            miss = format!("**{miss}**");
        }
        text.push_str(&format!(
            "| {} | {} | {} | {ours} | {miss} | {} |\n",
            row.what,
            row.source,
            format!("{} {}", published(row), row.unit).trim_end(),
            kind.word()
        ));
    }
    text
}

/// The whole page.
pub fn page(found: &Found) -> String {
    let count = |kind: Kind| found.rows.iter().filter(|row| row.kind == kind).count();
    let missed = |kind: Kind| {
        let own = found.rows.iter().filter(|row| row.kind == kind);
        own.filter(|row| row.is_missed()).count()
    };
    let mut text = String::from(HEAD);
    text.push_str("\n| kind | lines | farther off than the figure is good for |\n|---|---|---|\n");
    for kind in Kind::ALL {
        text.push_str(&format!(
            "| {} | {} | {} |\n",
            kind.word(),
            count(kind),
            missed(kind)
        ));
    }
    text.push_str("\n## Verification\n\nAgainst arithmetic done elsewhere: exact series, another code, worked examples.\n\n");
    text.push_str(&section(&found.rows, Kind::Verification));
    text.push_str(PEERS);
    text.push_str("\n## Grid study\n\n");
    text.push_str(GRID);
    text.push_str(&grid::table(&found.studies));
    text.push_str("\n## Validation\n\nAgainst what others measured or did; none of these figures set a constant.\n\n");
    text.push_str(&section(&found.rows, Kind::Validation));
    text.push_str("\n## Calibration\n\nFigures that set a constant here. They show how the fit sits; they prove nothing.\n\n");
    text.push_str(&section(&found.rows, Kind::Calibration));
    text.push_str("\n## Plausibility\n\n");
    text.push_str(COMMON);
    text.push_str(&section(&found.rows, Kind::Plausibility));
    text.push_str("\n## Misses, and why\n\n");
    text.push_str(WHY);
    text.push_str("| what | miss | why |\n|---|---|---|\n");
    for (what, off) in found.missed() {
        let why = KNOWN
            .iter()
            .find(|known| known.0 == what)
            .map_or("not explained", |known| known.1);
        text.push_str(&format!("| {what} | {off} | {why} |\n"));
    }
    text
}

const HEAD: &str = "# How the simulator stands against the world

Made by `cargo run -p xtask -- validation` from the list that the tests hold (`xtask/src/validation/`); do not
edit it by hand. A miss in bold is larger than the published figure is good for. Figures that were read say so;
what is from memory says so too.
";

const PEERS: &str = "
Other programs are asked while the tests run, because they need Python (`tests/verification/course_peers.rs`,
`specific_heats.rs`; versions in `tests/peers/requirements.txt`):

| program | what is compared | must agree within |
|---|---|---|
| SciPy, BDF, sparse Jacobian | a bake of a section of 12 × 24 cells, plateau of boiling and radiation in it, by steps of 0.5 and 2.5 s | 1 % of the minutes to 60, 88 and 95 °C; 0.2 points of loss; 1 % of the heat |
| FiPy | slab, long cylinder (0.548586 at Bi 1, Fo 0.5), sphere | 0.0025, its own first order in time |
| ht | films of still and blown air | the film used lies among those of ball, cylinder and plate |
| ht | radiation as a film | 2 in 10⁶ |
| CoolProp | conductivity, specific heat and density of the components | 1 in 10⁶ |
| CoolProp | vapour pressure; latent heat; conductivity of air | 1 %; 0.4 %; 1 % |
| CoolProp | wet bulb in four airs | 0.4 °C |
| CoolProp | boiling points | 0.06 °C |
";

const GRID: &str = "Every product of the four example recipes in the studio, by the clock, each on three meshes: coarse for many
kitchens at once, usual, fine. The usual mesh may differ from the fine one by 1 % of the time, 0.1 points of loss and
0.5 of L*, the coarse one by 3 %, 0.3 and 2. The oven is looked at every 5 s, so no time is known better. The step of
time is the same on all three. What is beyond its limit stands under Misses.

";

const COMMON: &str = "What cooks hold to be so, without source, and the times and weights that the example recipes print (invented). A miss
here is shown and never fails a test: either side may be wrong.

";

const WHY: &str = "A test fails when something is missed that has no reason here, or no longer missed and still has one.

";
