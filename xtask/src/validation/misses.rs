//! What is missed and known to be, each with its reason; the page prints both.

/// Names of lines that are missed and why; in any order.
pub const KNOWN: &[(&str, &str)] = &[
    (
        "specific heat of egg",
        "the table counts only an egg's water (docs/decisions/specific-heats.md)",
    ),
    (
        "specific heat of egg yolk",
        "the table's moisture is misprinted in the copy that was read (docs/decisions/specific-heats.md)",
    ),
    ("density of crumb, porosity 60 %", POROSITY),
    ("density of crumb, porosity 70 %", POROSITY),
    ("density of crumb, porosity 80 %", POROSITY),
    (
        "diffusivity of crumb warmed to 100 °C, porosity 60 %",
        DIFFUSIVITY,
    ),
    (
        "diffusivity of crumb warmed to 100 °C, porosity 70 %",
        DIFFUSIVITY,
    ),
    (
        "conductivity of bread, porosity 70 %, 25 °C",
        "Maxwell's bubbles are closed and touch nobody; a crumb's strands lie side by side, which probably conducts better when cold",
    ),
    (
        "heat that melts milk fat from 8.6 °C on, half of 80.8",
        "150 kJ/kg of solid fat is from memory and is nearly twice what was measured for the whole fat",
    ),
    (
        "solid share of milk fat at 8.6 °C",
        "the table of solid shares is from memory; published ones lie between 50 and 65 % at 10 °C",
    ),
    (
        "solid share of butter's fat at 10 °C, summer to winter",
        "the table of solid shares is from memory; calorimetry finds more than resonance does",
    ),
    ("D of yeast at 52 °C, off the line through 55 °C", STRAIGHT),
    ("D of yeast at 58 °C, off the line through 55 °C", STRAIGHT),
    (
        "temperature at which yeast is dead in a loaf that warms by 3 K/min",
        "the trade's 56 °C does not say how dead; ours is nine cells of ten",
    ),
    (
        "gas of an ordinary yeast with 10 % sugar",
        "one strain, one laboratory, harsher than bakers find; the factor is a placeholder that tested bakes move",
    ),
    (
        "more yeast cells from 2 to 4 h at 27 °C, 1.67 % yeast",
        CROWD,
    ),
    (
        "more yeast cells from 4 to 6 h at 27 °C, 1.67 % yeast",
        CROWD,
    ),
    ("D of Salmonella at 55 °C, muffin dough", STRAIGHT),
    ("D of Salmonella at 58.5 °C, muffin dough", STRAIGHT),
    ("D of Salmonella at 55 °C, bun dough", SLOWER),
    ("D of Salmonella at 58 °C, bun dough", SLOWER),
    (
        "water boils at 10000 ft",
        "the page rounded to a whole degree; CoolProp has less still",
    ),
    (
        "dough for each degree of the water, with a home bowl",
        "the rule would need a machine of 1.8 kJ/K for each kilogram of flour (docs/models/mix.md)",
    ),
    (
        "ice in water of 70 °F wanted at 0 °F",
        "probably a misprint in the table: its neighbours are met",
    ),
    (
        "ice in water of 40 °F wanted at −30 °F",
        "probably a misprint in the table: its neighbours are met",
    ),
    (
        "ice in 40 kg of water from 20 to 10 °C",
        "the note is wrong: 40 × 18 / 180 = 4.00",
    ),
    ("ball of 370 g from 24 to 7 °C", NO_FAN),
    ("ball of 620 g from 24 to 7 °C", NO_FAN),
    (
        "a kilogram of lean dough doubles, 2 % fresh yeast, 21 °C",
        WARMS,
    ),
    (
        "lost in oven and on the rack, braid of the same-day loaf",
        IN_TIN,
    ),
    (
        "lost in oven and on the rack, loaf of the cardamom dough",
        IN_TIN,
    ),
    ("middle at 60 °C, cardamom loaf in its tin", LATE),
    ("middle at 60 °C, braid in its tin", LATE),
    ("middle at 93 °C, hearth loaf", LATE),
    (
        "diffusivity of crumb warmed to 100 °C, porosity 80 %",
        DIFFUSIVITY,
    ),
    ("same-day loaf, buns: usual mesh, time to 88 °C", SMALL),
    ("cardamom dough, wreath: usual mesh, time to 88 °C", SMALL),
    ("feast bread, feast bread: coarse mesh, loss", WALLS),
    (
        "feast bread, feast bread: coarse mesh, time to 88 °C",
        WALLS,
    ),
    ("feast bread, feast bread: usual mesh, time to 88 °C", WALLS),
];

const POROSITY: &str = "their line comes to 979 kg/m³ without bubbles, where solids and water alone weigh 1200: porosity is probably counted otherwise";
const DIFFUSIVITY: &str = "the density is part of it; and the crumb measured was probably open and conducted better when cold";
const STRAIGHT: &str = "one straight line for three measured points; the middle is on it";
const SLOWER: &str = "of the two doughs measured the slower is taken, to be on the safe side";
const NO_FAN: &str =
    "a cold room blows, 12 W/(m² K) and more; ours is a home refrigerator whose air stands";
const WARMS: &str = "by hand the dough keeps its temperature; here its yeast warms it";
const IN_TIN: &str = "behind the walls of a tin vapour is sent inward and leaves only where a whole line of crumb boils";
const LATE: &str = "the middle warms late, probably because bubbles conduct little below 70 °C";
const SMALL: &str = "a small piece is done while its crust is a few cells thick, so where the front stands in its cell counts for more";
const WALLS: &str = "how far vapour from a wall comes before it settles goes by whole cells";
const CROWD: &str = "counts fall off sooner than a crowding law of one rate gives; over both spans together it is met";
