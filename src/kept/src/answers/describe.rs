//! What a product says of one aspect, in a line: for showing two versions side by side.

use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::record::{Aspect, ProductRecord};

use crate::entry::{Entry, Kind};
use crate::records::draft::DraftRecord;
use crate::records::sheet::{Row, Single};
use crate::say;
use crate::show::Reader;
use crate::text::key;

/// The text of an aspect's name.
pub fn name(aspect: Aspect) -> &'static str {
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
        Aspect::Lot => key::LOT,
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

/// What a product says of some aspects: the name of each and its figures in the reader's units.
pub fn lines(
    reader: Reader,
    product: &ProductRecord,
    aspects: &[Aspect],
) -> Vec<(&'static str, String)> {
    let line = |of: &Aspect| (name(*of), aspect(reader, product, *of, In::Reader));
    aspects.iter().map(line).collect()
}

/// What two versions say of it: in the reader's units, or, where that reads the same, as printed.
pub fn both(
    reader: Reader,
    (one, other): (&ProductRecord, &ProductRecord),
    of: Aspect,
) -> (String, String) {
    let texts = |units| (aspect(reader, one, of, units), aspect(reader, other, of, units));
    let (here, there) = texts(In::Reader);
    if here == there { texts(In::Print) } else { (here, there) }
}

/// In which units a figure is said.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum In {
    /// In the units that the reader has chosen.
    Reader,
    /// Those it was most likely printed in.
    Print,
}

/// What a product says of it; a dash for nothing.
pub fn aspect(reader: Reader, product: &ProductRecord, aspect: Aspect, units: In) -> String {
    let say = |key: &str| reader.language.say(key, &[]);
    let p = product;
    let figures = |of: &[Single]| singles(reader, units, p, (name(aspect), of));
    let text = match aspect {
        Aspect::Name => p.name.clone(),
        Aspect::Role => say(say::role(p.role)),
        Aspect::Chemistry => say(say::chemistry(p.chemistry)),
        Aspect::Tolerance => figures(&[Single::Tolerance]),
        Aspect::Notes => p.notes.clone(),
        Aspect::Sheet => format!("{} {}", p.sheet.name, p.sheet.dated).trim().to_owned(),
        Aspect::Ratio => rows(reader, units, p, &[Row::Part]),
        Aspect::Additives => rows(reader, units, p, &[Row::Additive]),
        Aspect::Kits => {
            let kits = rows(reader, units, p, &[Row::Kit]);
            format!("{kits} {}", p.currency.clone().unwrap_or_default()).trim().to_owned()
        }
        Aspect::PotLife => rows(reader, units, p, &[Row::PotLife]),
        Aspect::Lot => lot(reader, p),
        Aspect::OpenTime => rows(reader, units, p, &[Row::OpenTime]),
        Aspect::Recoat => rows(reader, units, p, &[Row::RecoatOpens, Row::RecoatCloses]),
        Aspect::Service => rows(reader, units, p, &[Row::LightUse, Row::Vehicles, Row::FullCure]),
        Aspect::EquivalentWeights => figures(&[Single::EquivalentA, Single::EquivalentB]),
        Aspect::Mixing => figures(&[Single::Mixing, Single::Induction]),
        Aspect::Film => figures(&[Single::Spread, Single::Wet, Single::Dry, Single::Solids]),
        Aspect::Flake => {
            let cover = figures(&[Single::FlakeCover]);
            let yes = say(if p.flaked { key::ANSWER_YES } else { key::ANSWER_NO });
            format!("{yes} {cover}").trim().to_owned()
        }
        Aspect::Limits => figures(&Single::LIMITS),
        Aspect::Thermal => figures(&Single::THERMAL),
    };
    if text.is_empty() { "–".to_owned() } else { text }
}

/// The lot in hand, and how much was seen of it and of earlier ones.
fn lot(reader: Reader, product: &ProductRecord) -> String {
    if product.lot.is_empty() && product.learnt.is_empty() {
        return String::new();
    }
    let seen = product.learnt.iter().map(|learnt| {
        let minutes = Time::new::<unit::minute>(learnt.time_min);
        let by = reader.language.say(say::learnt_by(learnt.by), &[]);
        format!("{} {by}: {}", learnt.lot, reader.time(minutes)).trim().to_owned()
    });
    let seen: Vec<String> = seen.collect();
    format!("{} ({})", product.lot, seen.join("; ")).trim().to_owned()
}

fn said(reader: Reader, units: In, kind: Kind, entry: &Entry) -> Option<String> {
    if entry.text.trim().is_empty() {
        return None;
    }
    let own = if units == In::Reader { reader.units } else { entry.units };
    let text = entry.text_in(kind, own);
    let said = reader.language.say(kind.unit(own), &[("n", text.trim())]);
    Some(said.trim().to_owned())
}

/// Some figures of an aspect, each with its name unless that is the aspect's own.
fn singles(
    reader: Reader,
    units: In,
    product: &ProductRecord,
    (head, singles): (&str, &[Single]),
) -> String {
    let form = DraftRecord::of(product, reader.units);
    let lines = singles.iter().filter_map(|single| {
        let ask = single.ask();
        let figure = said(reader, units, ask.kind, form.singles.get(single)?)?;
        let named = || format!("{}: {figure}", reader.language.say(ask.label, &[]));
        Some(if ask.label == head { figure.clone() } else { named() })
    });
    lines.collect::<Vec<_>>().join("; ")
}

/// The lines of some kinds, each kind with its name where there are several.
fn rows(reader: Reader, units: In, product: &ProductRecord, kinds: &[Row]) -> String {
    let form = DraftRecord::of(product, reader.units);
    let mut lines = Vec::new();
    for row in kinds {
        for (_, record) in form.rows_of(*row) {
            let asks = row.asks(record.way);
            let figures = asks.iter().zip(&record.entries);
            let figures: Vec<String> =
                figures.filter_map(|(ask, entry)| said(reader, units, ask.kind, entry)).collect();
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
            let measured = record.measured.map(say::measured);
            words.extend(measured.map(|text| format!("({})", reader.language.say(text, &[]))));
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
    use crate::text::Language;
    use crate::units::Units;
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
            let (one, other) = both(reader, (&mine, &theirs), differs);
            assert_ne!(one, other, "{differs:?}");
        }
        assert_eq!(
            aspect(reader, &mine, Aspect::Ratio, In::Print),
            "A 2 · 1.38 kg/L; B 1 · 1.02 kg/L; by volume"
        );
    }
}
