//! What a product says of one aspect, in a line: for showing two versions side by side.

use pailwise_calc::record::{Aspect, ProductRecord};

use super::ask::{Row, Single};
use super::draft::DraftRecord;
use crate::entry::{Entry, Kind};
use crate::say;
use crate::show::Reader;
use crate::text::key;

/// The text of an aspect's name.
pub(super) fn name(aspect: Aspect) -> &'static str {
    match aspect {
        Aspect::Name => key::SHEET_NAME,
        Aspect::Role => key::SHEET_ROLE,
        Aspect::Chemistry => key::SHEET_CHEMISTRY,
        Aspect::Ratio => key::SHEET_RATIO,
        Aspect::Tolerance => key::SHEET_TOLERANCE,
        Aspect::Additives => key::ROW_ADDITIVE,
        Aspect::Kits => key::KITS,
        Aspect::EquivalentWeights => key::SHEET_EQUIVALENTS,
        Aspect::PotLife => key::ROW_POT_LIFE,
        Aspect::OpenTime => key::ROW_OPEN_TIME,
        Aspect::Mixing => key::SHEET_MIXING,
        Aspect::Film => key::SHEET_FILM,
        Aspect::Flake => key::SHEET_FLAKED,
        Aspect::Recoat => key::SHEET_RECOAT,
        Aspect::Service => key::SHEET_AFTER,
        Aspect::Limits => key::SHEET_LIMITS,
        Aspect::Thermal => key::SHEET_THERMAL,
        Aspect::Notes => key::SHEET_NOTES,
        Aspect::Sheet => key::SHEET_SOURCE,
    }
}

/// What a product says of it; a dash for nothing.
pub(super) fn aspect(reader: Reader, product: &ProductRecord, aspect: Aspect) -> String {
    let say = |key: &str| reader.language.say(key, &[]);
    let p = product;
    let text = match aspect {
        Aspect::Name => p.name.clone(),
        Aspect::Role => say(say::role(p.role)),
        Aspect::Chemistry => say(say::chemistry(p.chemistry)),
        Aspect::Tolerance => {
            figure(reader, Single::Tolerance.ask().kind, p.ratio_tolerance_percent)
        }
        Aspect::Notes => p.notes.clone(),
        Aspect::Sheet => format!("{} {}", p.sheet.name, p.sheet.dated).trim().to_owned(),
        Aspect::Ratio => rows(reader, p, &[Row::Part]),
        Aspect::Additives => rows(reader, p, &[Row::Additive]),
        Aspect::Kits => {
            let kits = rows(reader, p, &[Row::Kit]);
            format!("{kits} {}", p.currency.clone().unwrap_or_default()).trim().to_owned()
        }
        Aspect::PotLife => rows(reader, p, &[Row::PotLife]),
        Aspect::OpenTime => rows(reader, p, &[Row::OpenTime]),
        Aspect::Recoat => rows(reader, p, &[Row::RecoatOpens, Row::RecoatCloses]),
        Aspect::Service => rows(reader, p, &[Row::LightUse, Row::Vehicles, Row::FullCure]),
        Aspect::EquivalentWeights => {
            singles(reader, p, &[Single::EquivalentA, Single::EquivalentB])
        }
        Aspect::Mixing => singles(reader, p, &[Single::Mixing, Single::Induction]),
        Aspect::Film => {
            singles(reader, p, &[Single::Spread, Single::Wet, Single::Dry, Single::Solids])
        }
        Aspect::Flake => {
            let cover = singles(reader, p, &[Single::FlakeCover]);
            let yes = say(if p.flaked { key::ANSWER_YES } else { key::ANSWER_NO });
            format!("{yes} {cover}").trim().to_owned()
        }
        Aspect::Limits => singles(
            reader,
            p,
            &[
                Single::SlabLeast,
                Single::SlabMost,
                Single::AirLeast,
                Single::AirMost,
                Single::HumidityMost,
                Single::DewPointSpread,
                Single::SlabHumidity,
                Single::VaporEmission,
                Single::PhLeast,
                Single::PhMost,
                Single::ProfileLeast,
                Single::ProfileMost,
                Single::DryAfterWash,
            ],
        ),
        Aspect::Thermal => singles(
            reader,
            p,
            &[Single::ActivationEnergy, Single::Heat, Single::HeatCapacity, Single::Kappa],
        ),
    };
    if text.is_empty() { "–".to_owned() } else { text }
}

fn figure(reader: Reader, kind: Kind, value: f64) -> String {
    let entry = Entry::printed(kind, value, reader.units);
    let number = &[("n", entry.text.as_str())];
    reader.language.say(kind.unit(entry.units), number).trim().to_owned()
}

fn said(reader: Reader, kind: Kind, entry: &Entry) -> Option<String> {
    let text = entry.text.trim();
    let unit = kind.unit(entry.units);
    (!text.is_empty()).then(|| reader.language.say(unit, &[("n", text)]).trim().to_owned())
}

/// Some figures, each with its name where there are several.
fn singles(reader: Reader, product: &ProductRecord, singles: &[Single]) -> String {
    let form = DraftRecord::of(product, reader.units);
    let lines = singles.iter().filter_map(|single| {
        let ask = single.ask();
        let figure = said(reader, ask.kind, form.singles.get(single)?)?;
        Some(format!("{}: {figure}", reader.language.say(ask.label, &[])))
    });
    lines.collect::<Vec<_>>().join("; ")
}

/// The lines of some kinds, each kind with its name where there are several.
fn rows(reader: Reader, product: &ProductRecord, kinds: &[Row]) -> String {
    let form = DraftRecord::of(product, reader.units);
    let mut lines = Vec::new();
    for row in kinds {
        for (_, record) in form.rows_of(*row) {
            let asks = row.asks(record.way);
            let figures = asks.iter().zip(&record.entries);
            let figures: Vec<String> =
                figures.filter_map(|(ask, entry)| said(reader, ask.kind, entry)).collect();
            let ways = row.ways();
            let way = ways.get(record.way).filter(|_| *row == Row::Additive);
            let mut words: Vec<String> = Vec::new();
            if kinds.len() > 1 {
                words.push(format!("{}:", reader.language.say(row.name(), &[])));
            }
            if !record.words.is_empty() {
                words.push(record.words.clone());
            }
            words.push(figures.join(" · "));
            words.extend(way.map(|way| format!("({})", reader.language.say(way, &[]))));
            if !record.onto.is_empty() {
                words.push(format!("→ {}", record.onto));
            }
            lines.push(words.join(" "));
        }
    }
    if kinds == [Row::Part] {
        let by = match product.ratio_by {
            pailwise_calc::ratio::Basis::Volume => key::WAY_VOLUME,
            pailwise_calc::ratio::Basis::Mass => key::WAY_MASS,
        };
        lines.push(reader.language.say(by, &[]));
    }
    lines.join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::Units;
    use crate::text::Language;
    use pailwise_calc::demo;

    type Change = fn(&mut ProductRecord);

    #[test]
    fn two_versions_that_differ_read_differently() {
        let reader = Reader { language: Language::En, units: Units::Us };
        let mine = demo::record_base();
        let changes: [Change; 12] = [
            |p| p.name.push('x'),
            |p| p.role = pailwise_calc::record::Role::Primer,
            |p| p.components[1].density_kg_per_l = 1.021,
            |p| p.ratio_tolerance_percent = 4.0,
            |p| p.kits[0].price = Some(9.5),
            |p| p.pot_life[0].time_min = 44.0,
            |p| p.induction_min = 5.0,
            |p| p.wet_film_um = Some(381.0),
            |p| p.flaked = false,
            |p| p.recoat_closes.clear(),
            |p| p.vehicles[0].time_h = 71.0,
            |p| p.limits.slab_min_c = Some(9.0),
        ];
        for change in changes {
            let mut theirs = mine.clone();
            change(&mut theirs);
            let [differs] = Aspect::differences(&mine, &theirs)[..] else { panic!() };
            let (one, other) = (aspect(reader, &mine, differs), aspect(reader, &theirs, differs));
            assert_ne!(one, other, "{differs:?}");
        }
        assert_eq!(
            aspect(reader, &mine, Aspect::Ratio),
            "A 2 · 1.38 kg/L; B 1 · 1.02 kg/L; by volume"
        );
    }
}
