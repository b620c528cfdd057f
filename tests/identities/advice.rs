//! Changes of the words: each is the recipe but for what it changes, worth nothing against itself, and the one that mends a planted fault wins.

use bake::kitchens::audience::{Audience, ready};
use bake::kitchens::variable::Variable;
use bake::kitchens::{Row, Setup, kitchens, setup};
use bake::simulate::Anchor;
use edit::advice::{Changed, Kind, best, lines, ways, worth};
use everyoven_tests::demos::{BUNS, DEMOS};
use numerics::distribution::Distribution;
use recipe::document::model::Recipe;
use recipe::document::{print_recipe, read_recipe};
use recipe::formula::{Formula, formula};
use recipe::larder::Larder;
use recipe::source::Severity;

fn read(text: &str) -> (Recipe, Larder, Formula) {
    let recipe = read_recipe(text).output.expect("it reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    (recipe, larder, sums)
}

fn looked_up<'a>(recipe: &'a Recipe, sums: &'a Formula) -> Setup<'a> {
    let made = setup(recipe, sums, Anchor::default(), 0);
    made.output.expect("it can be followed")
}

/// Buns of which nothing is said but minutes: no dough temperature, no sign, no range, no first look.
fn bare() -> String {
    let without = BUNS
        .replace(", dough = \"26 °C\"", "")
        .replace("until = { see = \"doubled\", volume = \"2 times\" }\n", "");
    assert!(!without.contains("dough = \"26") && !without.contains("until"));
    without.replace(
        "do = \"Cut:",
        "do = \"Let rise again.\"\nrest = { for = \"30 min\", at = \"26 °C\", where = \"room\", in = \"bowl\", covered = \"lid\" }\nuntil = { see = \"doubled\", volume = \"1.8 times\" }\n[[stage.step]]\ndo = \"Cut:",
    )
}

/// Every change there is, made somewhere, reads back as a recipe without anything to mend.
#[test]
fn every_change_is_made_somewhere_and_reads_back() {
    let common = ready("common").expect("ready");
    let bare = bare();
    for kind in Kind::ALL {
        let texts = DEMOS.iter().map(|(_, text)| *text);
        let mut made = texts.chain([BUNS, bare.as_str()]).filter_map(|text| {
            let (recipe, larder, sums) = read(text);
            let asked_of = looked_up(&recipe, &sums);
            let nothing = Changed::nothing(&recipe, &sums, &common);
            nothing.and(kind, &asked_of, &larder)
        });
        let changed = made
            .next()
            .unwrap_or_else(|| panic!("{kind:?} changes nothing"));
        println!("{kind:?}: {}", changed.sentence());
        assert!(changed.sentence().ends_with('.'), "{kind:?}");
        let again = read_recipe(&print_recipe(&changed.recipe));
        let mends = again.diagnostics.iter();
        let mends = mends.filter(|said| said.code.severity == Severity::Mend);
        assert_eq!(mends.count(), 0, "{kind:?}: {:?}", again.diagnostics);
        let again = again.output.expect("it reads");
        assert_eq!(
            print_recipe(&again),
            print_recipe(&changed.recipe),
            "{kind:?}"
        );
    }
}

/// Rooms four degrees off and ovens thirteen: 60 min from 41 to 88, 16 min at 200 °C from 14 to 18.
#[test]
fn a_window_is_as_wide_as_rooms_and_ovens_differ() {
    let (recipe, larder, sums) = read(BUNS);
    let base = looked_up(&recipe, &sums);
    let common = ready("common").expect("ready");
    let nothing = Changed::nothing(&recipe, &sums, &common);
    let wide = nothing.and(Kind::WidenWindow, &base, &larder);
    let text = print_recipe(&wide.expect("it has no range").recipe);
    assert!(text.contains("\"40-90 min\""), "{text}");
    assert!(text.contains("\"14-18 min\""), "{text}");
}

#[test]
fn a_change_is_the_recipe_but_for_what_it_changes() {
    let common = ready("common").expect("ready");
    let mut made = 0;
    for (name, text) in DEMOS {
        let (recipe, larder, sums) = read(text);
        let base = looked_up(&recipe, &sums);
        let nothing = Changed::nothing(&recipe, &sums, &common);
        for kind in Kind::ALL {
            let Some(changed) = nothing.and(kind, &base, &larder) else {
                continue;
            };
            made += 1;
            let again = read_recipe(&print_recipe(&changed.recipe));
            let mends: Vec<_> = again
                .diagnostics
                .iter()
                .filter(|said| said.code.severity == Severity::Mend)
                .collect();
            assert!(mends.is_empty(), "{name}, {kind:?}: {mends:?}");
            let (was, is) = (&sums.dough, &changed.formula.dough);
            assert!((was.flour.si() - is.flour.si()).abs() < 1e-12, "{kind:?}");
            assert!((was.water.si() - is.water.si()).abs() < 2e-3, "{kind:?}");
            let less = is.yeast_fresh < was.yeast_fresh;
            assert_eq!(less, kind == Kind::LessYeast, "{name}, {kind:?}");
            let diff = lines(&recipe, &changed.recipe);
            assert!(!diff.is_empty(), "{name}, {kind:?} changes the file");
            assert!(changed.and(kind, &base, &larder).is_none(), "once");
        }
    }
    assert!(made > 25, "{made}");
}

#[test]
fn lines_that_go_and_come_lead_from_one_file_to_the_other() {
    let (recipe, larder, sums) = read(DEMOS[0].1);
    let base = looked_up(&recipe, &sums);
    let common = ready("common").expect("ready");
    let nothing = Changed::nothing(&recipe, &sums, &common);
    let changed = nothing.and(Kind::ColderButter, &base, &larder);
    let changed = changed.expect("it has butter");
    let trimmed = |recipe: &Recipe| -> Vec<String> {
        let text = print_recipe(recipe);
        let mut lines: Vec<String> = text.lines().map(|line| line.trim().to_owned()).collect();
        lines.sort();
        lines
    };
    let mut moved = trimmed(&recipe);
    for (sign, line) in lines(&recipe, &changed.recipe) {
        if sign == '-' {
            let at = moved
                .iter()
                .position(|one| *one == line)
                .expect("it was there");
            moved.remove(at);
        } else {
            moved.push(line);
        }
    }
    moved.sort();
    assert_eq!(moved, trimmed(&changed.recipe));
    assert_eq!(lines(&recipe, &recipe), []);
}

fn rows(of: &Changed, base: &Setup<'_>, number: u64) -> Vec<Row> {
    let own = of.setup(base).expect("it can be followed");
    kitchens(&own, &of.audience, 3, 0..number).rows
}

/// Everything in its middle but what is given.
fn calm(yes: &[(Variable, f64)]) -> Audience {
    let mut audience = ready("common").expect("ready");
    for variable in Variable::ALL {
        let distribution = &mut audience.variables[variable.place()].distribution;
        // Of several the likeliest, of what spreads its middle.
        let calm = match &mut *distribution {
            Distribution::OneOf(several) => {
                let most = several.iter().map(|(share, _)| *share).fold(0.0, f64::max);
                let mut found = false;
                for (share, one) in several.iter_mut() {
                    let is = !found && *share >= most;
                    found |= is;
                    *share = f64::from(u8::from(is));
                    *one = Distribution::Fixed(one.quantile(0.5));
                }
                Distribution::OneOf(several.clone())
            }
            other => Distribution::Fixed(other.quantile(0.5)),
        };
        *distribution = calm;
    }
    for (variable, share) in yes {
        audience.variables[variable.place()].distribution = Distribution::yes(*share);
    }
    audience
}

/// What each change is worth by itself.
fn each(text: &str, audience: &Audience) -> Vec<(Kind, f64)> {
    let (recipe, larder, sums) = read(text);
    let base = looked_up(&recipe, &sums);
    let nothing = Changed::nothing(&recipe, &sums, audience);
    let without = rows(&nothing, &base, 64);
    let same = worth(&without, &rows(&nothing, &base, 64));
    assert!(same.value.abs() < 1e-15 && same.within < 1e-15, "itself");
    let changes: Vec<Changed> = Kind::ALL
        .into_iter()
        .filter_map(|kind| nothing.and(kind, &base, &larder))
        .collect();
    let all: Vec<_> = changes
        .iter()
        .map(|changed| worth(&without, &rows(changed, &base, 64)))
        .collect();
    let place = best(&all);
    let told: Vec<(Kind, f64)> = changes
        .iter()
        .zip(&all)
        .map(|(changed, worth)| (changed.changes[0].0, worth.value))
        .collect();
    println!("{told:?}, best {place:?}");
    let mut sorted = told;
    sorted.sort_by(|one, other| other.1.total_cmp(&one.1));
    sorted
}

/// Buns whose written rise is far too short for the dough, read by people who go by the clock.
#[test]
fn a_rise_that_is_written_too_short_is_mended_by_its_sign() {
    let text = BUNS
        .replace("for = \"60 min\", at", "for = \"15 min\", at")
        .replace("for = \"16 min\"", "for = \"19 min\"");
    let clock = calm(&[(Variable::FollowsClock, 1.0), (Variable::Weighs, 1.0)]);
    let found = each(&text, &clock);
    assert_eq!(found[0].0, Kind::GoBySign, "{found:?}");
    assert!(
        (found[0].1 - 0.5).abs() < 0.1,
        "half of them heed it: {found:?}"
    );
    assert!(found[1].1 < found[0].1, "{found:?}");
}

/// People who scoop, and otherwise do all as written.
#[test]
fn scooped_flour_is_mended_by_scales() {
    let mut scoop = calm(&[(Variable::Weighs, 0.0)]);
    let cup = Variable::FlourCup.place();
    scoop.variables[cup].distribution = Distribution::Fixed(165.0);
    let text = BUNS.replace("for = \"16 min\"", "for = \"19 min\"");
    let found = each(&text, &scoop);
    assert_eq!(found[0].0, Kind::WeighFlour, "{found:?}");
    assert!(
        (found[0].1 - 0.5).abs() < 0.1,
        "half of them heed it: {found:?}"
    );
}

#[test]
fn what_holds_in_all_ways_holds_in_each() {
    let (recipe, _, sums) = read(BUNS);
    let base = looked_up(&recipe, &sums);
    let audience = ready("common").expect("ready");
    let nothing = Changed::nothing(&recipe, &sums, &audience);
    let some = rows(&nothing, &base, 16);
    let better: Vec<Row> = some
        .iter()
        .map(|row| Row {
            flaws: vec![0; row.flaws.len()],
            ..row.clone()
        })
        .collect();
    let (share, all) = ways(
        &[some.clone(), some.clone()],
        &[better.clone(), some.clone()],
    );
    assert!((share - 0.5).abs() < 1e-12, "one of two");
    assert!(all[0].abs() < 1e-12 && all[1] > 0.0, "{all:?}");
    let (never, _) = ways(&[better], &[some]);
    assert!(never < 1e-12);
}
