//! Bays: parts of a floor side by side, from the back wall to the door, with tape lines between
//! them; and the crews that lay them at the same time.

use std::ops::Range;

use crate::crew::Crew;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Figure, Length, unit};
use crate::shape::Shape;
use crate::sorted::sorted_by;

/// A part of the floor that is laid by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Bay {
    /// Its floor; its sides at a tape line are not brushed.
    pub shape: Shape,
    /// Which of the crews lays it.
    pub team: usize,
}

/// One of the crews that work at the same time, with its share of everybody. It lays its bays one
/// after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Team {
    /// Its people; of those who mix the ones that mix for it.
    pub crew: Crew,
    /// Which of those who mix that is.
    pub mixers: Range<usize>,
    /// So many crews they mix for, this one counted.
    pub serves: u32,
}

/// No bay is narrower than this.
fn narrowest() -> Length {
    Length::new::<unit::meter>(0.3)
}

/// The bays between tape lines at distances from the left wall, from left to right, laid by so many
/// crews at once: each has as many as the others, side by side.
pub(super) fn bays(shape: &Shape, lines: &[Length], crews: usize) -> Result<Vec<Bay>, Error> {
    Field::TapeLines.check(Figure::Count(u32::try_from(lines.len()).unwrap_or(u32::MAX)))?;
    for line in lines {
        Field::TapeLine.check(*line)?;
    }
    let lines = sorted_by(lines.to_vec(), |line| line.value);
    let (mut left, right) = shape.sides();
    let high = right - narrowest();
    let mut edges = vec![left];
    for line in lines {
        let low = left + narrowest();
        if line < low || line > high {
            let (field, given) = (Field::TapeLine, line.into());
            return Err(Error::OutOfRange { field, given, low: low.into(), high: high.into() });
        }
        edges.push(line);
        left = line;
    }
    edges.push(right);
    let count = edges.len() - 1;
    let crews = crews.clamp(1, count);
    let bay = |(i, sides): (usize, &[Length])| -> Result<Bay, Error> {
        let shape = if count == 1 { shape.clone() } else { shape.bay(sides[0], sides[1])? };
        Ok(Bay { shape, team: i * crews / count })
    };
    edges.windows(2).enumerate().map(bay).collect()
}

/// The crews that lay bays at the same time: who is here is shared out evenly, one more first to
/// those who have most floor. Each has somebody of its own to mix where there are as many; else who
/// mixes does so for several.
pub(super) fn teams(crew: &Crew, bays: &[Bay]) -> Result<Vec<Team>, Error> {
    let count = bays.iter().map(|bay| bay.team + 1).max().unwrap_or(1);
    let teams = u32::try_from(count).unwrap_or(u32::MAX);
    if teams > crew.rollers {
        let (given, high) = (Figure::Count(teams), Figure::Count(crew.rollers));
        return Err(Error::OutOfRange { field: Field::Crews, given, low: Figure::Count(1), high });
    }
    let floor_of = |team: usize| -> f64 {
        bays.iter().filter(|bay| bay.team == team).map(|bay| bay.shape.area().value).sum()
    };
    let by_floor = sorted_by((0..count).collect(), |team| -floor_of(*team));
    let mut rank = vec![0_u32; count];
    for (place, team) in (0_u32..).zip(by_floor) {
        rank[team] = place;
    }
    let share = |people: u32, team: usize| people / teams + u32::from(rank[team] < people % teams);
    let mixers = crew.mixers as usize;
    let mut next = 0;
    let team = |team: usize| {
        let (own, serves) = if crew.mixers >= teams {
            let own = share(crew.mixers, team) as usize;
            next += own;
            (next - own..next, 1)
        } else if mixers == 0 {
            (0..0, 1)
        } else {
            let one = team % mixers;
            (one..one + 1, (count - one).div_ceil(mixers))
        };
        Team {
            crew: Crew {
                rollers: share(crew.rollers, team),
                flakers: share(crew.flakers, team),
                cutters: share(crew.cutters, team),
                mixers: own.len() as u32,
                ..*crew
            },
            mixers: own,
            serves: serves as u32,
        }
    };
    Ok((0..count).map(team).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::shape::Rectangle;

    fn m(value: f64) -> Length {
        Length::new::<unit::meter>(value)
    }

    fn room() -> Shape {
        let room = Rectangle { left: m(0.0), back: m(0.0), width: m(12.0), depth: m(6.0) };
        Shape::new(&[room], &[]).unwrap()
    }

    fn of(lines: &[f64], crews: usize, crew: &Crew) -> Result<(Vec<Bay>, Vec<Team>), Error> {
        let lines: Vec<Length> = lines.iter().map(|line| m(*line)).collect();
        let bays = bays(&room(), &lines, crews)?;
        let teams = teams(crew, &bays)?;
        Ok((bays, teams))
    }

    #[test]
    fn everybody_is_in_one_crew_and_every_foot_in_one_bay() {
        let few = Crew::try_from(&demo::crew()).unwrap();
        for (rollers, flakers, mixers) in [(2, 2, 0), (3, 1, 1), (5, 4, 2), (4, 0, 3), (7, 5, 8)] {
            let crew = Crew { rollers, flakers, mixers, ..few };
            for lines in [&[][..], &[4.0], &[3.0, 6.5], &[8.0, 2.0, 5.0]] {
                for crews in 1..=2 {
                    let (bays, teams) = of(lines, crews, &crew).unwrap();
                    assert_eq!(bays.len(), lines.len() + 1);
                    assert_eq!(teams.len(), crews.min(bays.len()));
                    let area: f64 = bays.iter().map(|bay| bay.shape.area().value).sum();
                    assert!((area - 72.0).abs() < 1e-9);
                    let people =
                        |of: fn(&Crew) -> u32| teams.iter().map(|team| of(&team.crew)).sum::<u32>();
                    assert_eq!((people(|c| c.rollers), people(|c| c.flakers)), (rollers, flakers));
                    // Nobody who mixes stands idle, nobody is in two places unless shared.
                    let crews = teams.len() as u32;
                    if mixers >= crews {
                        assert_eq!(people(|c| c.mixers), mixers);
                        assert!(teams.windows(2).all(|t| t[0].mixers.end == t[1].mixers.start));
                        assert!(teams.iter().all(|team| team.serves == 1));
                    } else if mixers > 0 {
                        assert!(teams.iter().all(|team| team.crew.mixers == 1));
                        assert!(teams.iter().all(|team| team.serves == crews.div_ceil(mixers)));
                    }
                }
            }
        }
    }

    #[test]
    fn the_larger_bay_gets_the_one_more() {
        let few = Crew::try_from(&demo::crew()).unwrap();
        let crew = Crew { rollers: 3, ..few };
        let (_, teams) = of(&[4.0], 2, &crew).unwrap();
        assert_eq!((teams[0].crew.rollers, teams[1].crew.rollers), (1, 2));
        assert_eq!((teams[0].crew.flakers, teams[1].crew.flakers), (0, 1));
    }

    #[test]
    fn a_line_off_the_floor_and_a_crew_without_a_roller_are_named() {
        let crew = Crew::try_from(&demo::crew()).unwrap();
        for lines in [&[0.1][..], &[11.9], &[4.0, 4.1], &[-1.0], &[f64::NAN]] {
            let wrong = of(lines, 1, &crew).unwrap_err();
            let named = matches!(
                wrong,
                Error::OutOfRange { field: Field::TapeLine, .. }
                    | Error::NotANumber { field: Field::TapeLine }
            );
            assert!(named, "{lines:?}: {wrong:?}");
        }
        let wrong = of(&[4.0], 2, &crew).unwrap_err();
        assert!(matches!(wrong, Error::OutOfRange { field: Field::Crews, .. }), "{wrong:?}");
    }
}
