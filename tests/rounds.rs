//! Practice in a real browser: a right answer, a wrong one, and a usual mistake, in both languages.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::demo;
use pailwise_calc::practice::{Answer, Counting, Mistake, Question, Skill, ask};
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Figure, unit};
use pailwise_tests::browser::{Outcome, Phone, Site};

/// The phone's dice always fall so.
const DICE: f64 = 0.5;

/// What is asked first, of the second product in the order of the shelf: the topcoat or the base,
/// whichever stands there.
fn asked(phone_shows: &str, skill: Skill, counting: Counting) -> Question {
    let seed = (DICE * 9e15) as u64;
    let mut products = demo::records().into_iter();
    // As the phone names it in either language.
    let named = |record: &pailwise_calc::record::ProductRecord| {
        let spanish = match record.id.as_str() {
            "invented-base" => "Base de práctica",
            "invented-topcoat" => "Transparente de práctica",
            _ => "Pasta de práctica",
        };
        phone_shows.contains(&record.name) || phone_shows.contains(spanish)
    };
    let record = products.find(named).unwrap();
    ask(skill, &Product::try_from(&record).unwrap(), counting, seed).unwrap()
}

/// A volume in the units it is typed in.
fn typed(answer: Answer, counting: Counting) -> String {
    match (answer, counting) {
        (Answer::Figure(Figure::Volume(q)), Counting::Us) => {
            format!("{:.3}", q.get::<unit::quart_liquid>())
        }
        (Answer::Figure(Figure::Volume(q)), Counting::Metric) => {
            format!("{:.3}", q.get::<unit::liter>())
        }
        other => panic!("{other:?} is no volume"),
    }
}

/// Answers one round and goes on: what was said of it.
async fn answer(phone: &Phone, text: &str) -> Outcome<String> {
    phone.type_into("round-answer", text).await?;
    phone.tap("#round-check", "").await?;
    let said = phone.text(".round-mark").await?;
    let all = phone.text(".round > [role='status']").await?;
    assert!(all.contains(&said) && all.contains('%'), "no working in {all}");
    phone.tap("#round-next", "").await?;
    Ok(all)
}

async fn practises(language: &str, counting: Counting, words: [&str; 4]) -> Outcome {
    let [right, wrong, swapped, other] = words;
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, language).await?;
    phone.before_every_page(&format!("Math.random = () => {DICE}")).await?;
    phone.open(&format!("{}#practice", site.address)).await?;
    let question = asked(&phone.text(".round").await?, Skill::SplitByVolume, counting);

    // A wrong answer, with the right one and the working after it.
    let said = answer(&phone, "0.01").await?;
    assert!(said.contains(wrong) && !said.contains(swapped), "{said}");
    // What is new comes next, and a usual mistake in it is named.
    assert!(phone.text(".round h2").await?.contains(other));
    let next = asked(&phone.text(".round").await?, Skill::OneFromOther, counting);
    let slip = next.slips.iter().find(|slip| slip.mistake == Mistake::PartsSwapped);
    let said = match slip {
        Some(slip) => answer(&phone, &typed(slip.gives, counting)).await?,
        None => answer(&phone, "0.01").await?,
    };
    assert!(said.contains(wrong), "{said}");
    assert!(slip.is_none() || said.contains(swapped), "{said}");
    // The weak one is back, and a right answer is told to be right.
    let said = answer(&phone, &typed(question.right, counting)).await?;
    assert!(said.contains(right), "{said}");

    // Going away does not get rid of a question.
    let waits = phone.text("#round-asks").await?;
    phone.reload().await?;
    assert_eq!(phone.text("#round-asks").await?, waits);
    // Somebody else begins anew, with nothing of the round before; what was learnt outlives it.
    phone.type_into("round-answer", "0.01").await?;
    phone.tap("#round-check", "").await?;
    phone.element(".round-mark").await?;
    phone.type_into("practice-name", "Person Two").await?;
    phone.tap("#practice-add", "").await?;
    assert!(phone.none(".round-mark").await?, "a round of somebody else");
    phone.reload().await?;
    let kept = phone.script("return localStorage.getItem('pailwise/practice')").await?;
    assert!(kept.contains("Person Two") && kept.contains("split_by_volume"), "{kept}");
    // The sliders: warmer and larger lasts less long.
    phone
        .script("document.getElementById('sandbox-at').closest('details').open = true; return ''")
        .await?;
    let cool = phone.text("#sandbox-life").await?;
    phone.set("sandbox-at", "35").await?;
    let warm = phone.changed("#sandbox-life", &cool).await?;
    let number = |text: &str| -> f64 {
        let digits = text.split(|c: char| !c.is_ascii_digit()).find(|part| !part.is_empty());
        digits.unwrap().parse().unwrap()
    };
    assert!(number(&warm) < number(&cool), "{warm} after {cool}");
    assert_eq!(phone.overhang().await?, 0);
    phone.quit().await
}

#[tokio::test]
async fn a_new_hire_practises() -> Outcome {
    let words = ["Right:", "Not right", "takes the one part for the other", "One part from"];
    practises("en-US", Counting::Us, words).await
}

#[tokio::test]
async fn un_nuevo_practica() -> Outcome {
    let words = ["Correcto:", "Incorrecto", "toma una parte por la otra", "Una parte según"];
    practises("es-MX", Counting::Metric, words).await
}
