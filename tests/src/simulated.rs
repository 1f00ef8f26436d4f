//! A slow, simple simulation: people and patches followed second by second, the pail by its own
//! equations in small steps. It shares no formula with the calculation but the physical ones of the
//! design.

use pailwise_calc::crew::Pouring;
use pailwise_calc::cure::{Chemistry, GAS_CONSTANT};
use pailwise_calc::job::Job;
use pailwise_calc::measure::Measure;
use pailwise_calc::pail::{laboratory_cup, still_air};
use pailwise_calc::quantity::{ThermodynamicTemperature, Volume, unit};
use pailwise_calc::record::ProductRecord;

/// How long one step of the simulation is, in seconds.
pub const STEP: f64 = 1.0;
/// Patches followed in each batch, and points along its edge.
const PATCHES: usize = 48;
const ALONG: usize = 12;

/// Rate constant at a temperature, 1/s.
fn k(job: &Job, kelvin: f64) -> f64 {
    let kelvin = ThermodynamicTemperature::new::<unit::kelvin>(kelvin);
    job.product.calibration().kinetics.rate.at(kelvin).value
}

/// Bottom and wetted side of a volume in a round pail, found by filling it slice by slice.
fn wetted(bottom: f64, top: f64, height: f64, volume: f64) -> f64 {
    let pi = std::f64::consts::PI;
    let slice = height / 4000.0;
    let (mut filled, mut side, mut z) = (0.0, 0.0, 0.0);
    let slope = (top - bottom) / 2.0 / height;
    while filled < volume && z < height {
        let r = bottom / 2.0 + slope * (z + slice / 2.0);
        filled += pi * r * r * slice;
        side += 2.0 * pi * r * slice * (1.0 + slope * slope).sqrt();
        z += slice;
    }
    pi * bottom * bottom / 4.0 + side
}

/// A pail walked through its pot life: reduced time `∫k dt` lived by every second, and its end.
pub struct Pail {
    lived: Vec<f64>,
    /// How long the mix in this pail stays usable, in seconds.
    pub pot_life: f64,
}

impl Pail {
    /// Colder than its sheet's coldest temperature it is promised little more than there: then it
    /// goes no slower than it would go there, slower by that little.
    pub fn walk(job: &Job, volume: f64) -> Self {
        let (material, air) = (job.conditions.mixed().value, job.conditions.air.value);
        let own = Self::from(job, volume, (material, air), 1.0);
        let calibration = job.product.calibration();
        let coldest = calibration.temperatures[0].value;
        if material >= coldest && air >= coldest {
            return own;
        }
        let known = (material.max(coldest), air.max(coldest));
        let energy = calibration.kinetics.rate.beyond().cold.value;
        let longer = (energy / GAS_CONSTANT * (1.0 / material - 1.0 / known.0)).exp();
        let slowed = Self::from(job, volume, known, 1.0 / longer);
        // At each second the one that is further on.
        let pot_life = own.pot_life.min(slowed.pot_life);
        let seconds = own.lived.len().min(slowed.lived.len());
        let lived = own.lived.iter().zip(&slowed.lived).take(seconds).map(|(a, b)| a.max(*b));
        Self { lived: lived.collect(), pot_life }
    }

    /// Walked from a temperature of the material, in air of another, all of it so many times as
    /// fast.
    fn from(job: &Job, volume: f64, (material, air): (f64, f64), hurried: f64) -> Self {
        let (thermal, cure) = (job.product.thermal(), job.product.calibration().kinetics);
        let (cp, density) = (thermal.heat_capacity.value, job.product.ratio().density().value);
        let loses = |volume: f64, surface: f64| {
            hurried * still_air().value * surface / (volume * density * cp)
        };
        let vessel = job.gear.vessel;
        let (bottom, top) = (vessel.bottom().value, vessel.top().value);
        let own = loses(volume, wetted(bottom, top, vessel.height().value, volume));
        // The data sheet's cup, as high as it is wide.
        let sample = laboratory_cup().value / density;
        let wide = (4.0 * sample / std::f64::consts::PI).cbrt();
        let cup = loses(sample, wetted(wide, wide, wide, sample));
        let rise = thermal.heat_of_reaction.value / cp;
        let k = |kelvin: f64| hurried * k(job, kelvin);
        let mut kelvin = material;
        let slopes = |conversion: f64, kelvin: f64| {
            let shape =
                (cure.kappa + conversion) * (1.0 - conversion) * (cure.balance - conversion);
            let rate = k(kelvin) * shape;
            let exchange = if kelvin > air { own.min(cup) } else { cup };
            (rate, rise * rate - exchange * (kelvin - air))
        };
        let (mut conversion, mut lived, mut sum) = (0.0, vec![0.0], 0.0);
        loop {
            // The midpoint of each second.
            let (da, dt) = slopes(conversion, kelvin);
            let middle = kelvin + 0.5 * STEP * dt;
            let (da, dt) = slopes(conversion + 0.5 * STEP * da, middle);
            let next = conversion + STEP * da;
            if next >= cure.end {
                let share = (cure.end - conversion) / (next - conversion);
                let pot_life = (lived.len() as f64 - 1.0 + share) * STEP;
                return Self { lived, pot_life };
            }
            (conversion, kelvin) = (next, kelvin + STEP * dt);
            sum += k(middle) * STEP;
            lived.push(sum);
        }
    }

    /// Reduced time lived by a moment; what stays past its pot life is lost.
    fn at(&self, t: f64) -> f64 {
        let i = (t / STEP).floor().max(0.0) as usize;
        match (self.lived.get(i), self.lived.get(i + 1)) {
            (Some(a), Some(b)) => a + (b - a) * (t / STEP - i as f64),
            (Some(a), None) if t <= self.pot_life => *a,
            _ => f64::INFINITY,
        }
    }
}

/// How a batch went: what each patch lived through, and when people were free.
struct Went {
    emptied: f64,
    /// For each patch: it left the pail, it was finished.
    patches: Vec<(f64, f64)>,
    /// For points along the edge: each left the pail, the next batch met it.
    edge: Vec<(f64, f64)>,
}

/// How the next batch meets an edge, in seconds from when A met B in the one that left it.
#[derive(Clone, Copy)]
pub struct Next {
    /// It begins to roll.
    pub rolls: f64,
    /// Its first strip along the edge takes so long.
    pub strip_takes: f64,
}

/// A way to lay a batch: so many roll, no faster than a pace, in strips so deep.
#[derive(Clone, Copy)]
struct Way {
    rollers: u32,
    no_faster: Option<f64>,
    depth: f64,
    /// How the next batch meets its edge, where that is known.
    next: Option<Next>,
    /// Sides across are brushed by all hands before they roll.
    edges_first: bool,
}

/// Follows people through a batch, second by second.
#[expect(clippy::too_many_lines, reason = "one walk, second by second")]
fn work(job: &Job, laid: (f64, f64), way: Way) -> Went {
    let ((area, volume), Way { rollers, no_faster, depth, .. }) = (laid, way);
    let (crew, product) = (&job.crew, &job.product);
    let ready = getting_ready(job);
    let hands = f64::from(rollers);
    let flaking = product.flaked().then(|| {
        crew.flake.value * f64::from(if crew.flakers > 0 { crew.flakers } else { rollers })
    });
    let alternates = product.flaked() && crew.flakers == 0;
    let settle = if product.flaked() { crew.settle.value } else { 0.0 };
    let strip = depth * job.bare.width.value;
    let helped = crew.cutters > 0 && !way.edges_first;
    let (beside, at_start) = edges(job, area, helped);
    let mut brush_first = if helped { 0.0 } else { at_start };
    let brushing = crew.cut.value * (hands + f64::from(crew.cutters));
    // Edges that cutters have brushed, and how much rolling that allows.
    let mut cut = 0.0;

    let marks = marks(area, strip, alternates);
    let mut left = vec![f64::NAN; marks.len()];
    let (mut rolled_at, mut done) = (left.clone(), left.clone());
    let crossing = |at: &mut Vec<f64>, before: f64, after: f64, t: f64| {
        for (mark, at) in marks.iter().zip(at.iter_mut()) {
            if at.is_nan() && after >= *mark * (1.0 - 1e-12) {
                let share = if after > before { (mark - before) / (after - before) } else { 0.0 };
                *at = t + STEP * share.clamp(0.0, 1.0);
            }
        }
    };
    let (mut poured, mut rolled, mut flaked) = (0.0_f64, 0.0_f64, 0.0_f64);
    let mut history = vec![];
    let mut flaker_starts = f64::INFINITY;
    let mut t = ready;
    if alternates {
        return in_turns(job, laid, way, &marks);
    }
    crossing(&mut left, 0.0, 0.0, t);
    while done.iter().any(|at| at.is_nan()) {
        assert!(t < 1e6, "nobody finishes");
        history.push(rolled);
        let (poured_before, rolled_before, flaked_before) = (poured, rolled, flaked);
        if let Pouring::Ribbon(rate) = crew.pouring {
            poured += rate.value * STEP * area / volume;
            crossing(&mut left, poured_before, poured, t);
        }
        let mut time = STEP;
        if brush_first > 0.0 {
            let takes = (brush_first / brushing).min(time);
            brush_first = (brush_first - takes * brushing).max(0.0);
            if brush_first < 1e-12 {
                brush_first = 0.0;
            }
            time -= takes;
        }
        cut += f64::from(crew.cutters) * crew.cut.value * time;
        if rolled < area && time > 0.0 {
            // What the rollers can roll while the edges beside it are brushed, by them where the
            // cutters have not been.
            let (roll, brush) = (crew.roll.value * hands, crew.cut.value * hands);
            let ahead = (cut - rolled * beside).max(0.0);
            let in_turns = (time + ahead / brush) / (1.0 / roll + beside / brush);
            let mut can = (time * roll).min(in_turns);
            can = can.min(no_faster.unwrap_or(f64::INFINITY) * time);
            let mut to = (rolled + can).min(area);
            if matches!(crew.pouring, Pouring::Ribbon(_)) {
                to = to.min(poured);
            }
            cut = cut.max(to * beside);
            let waited = STEP - time;
            let takes = if can > 0.0 { time * (to - rolled) / can } else { 0.0 };
            // Within the second, rolling begins after the brush.
            for (mark, at) in marks.iter().zip(rolled_at.iter_mut()) {
                if at.is_nan() && to >= *mark * (1.0 - 1e-12) {
                    let share = if to > rolled { (mark - rolled) / (to - rolled) } else { 0.0 };
                    let span = if to < rolled + can && to < area { time } else { takes };
                    *at = t + waited + span * share.clamp(0.0, 1.0);
                }
            }
            rolled = to;
        }
        match flaking {
            None => done.clone_from(&rolled_at),
            Some(pace) => {
                let first = strip.min(area);
                if flaker_starts.is_infinite() && rolled >= first * (1.0 - 1e-12) {
                    let share = (first - rolled_before) / (rolled - rolled_before).max(1e-300);
                    flaker_starts = t + STEP * share.clamp(0.0, 1.0) + settle;
                }
                let works = (t + STEP - flaker_starts.max(t)).clamp(0.0, STEP);
                // Never onto what has not settled.
                let ago = ((t + STEP - settle - ready) / STEP).max(0.0);
                let (i, share) = (ago.floor() as usize, ago.fract());
                let now =
                    [history.get(i), history.get(i + 1)].map(|x| x.copied().unwrap_or(rolled));
                let settled =
                    if settle <= 0.0 { rolled } else { now[0] + share * (now[1] - now[0]) };
                flaked = (flaked + pace * works).min(settled.max(flaked_before));
                crossing(&mut done, flaked_before, flaked, t);
            }
        }
        t += STEP;
    }
    if crew.pouring == Pouring::FromPail {
        left.clone_from(&rolled_at);
    }
    let pace = 1.0 / metre(job, (area, volume), way);
    went(job, (area, volume), left, &rolled_at, done, (pace, strip, way.next))
}

/// The patches that are followed, by the area laid before each: over all of it, and along its edge:
/// what was rolled last across the floor, of which a strip before it may be a part; of hands that
/// finish each strip before the next, the last strip.
fn marks(area: f64, strip: f64, in_turns: bool) -> Vec<f64> {
    let begun = ((area / strip).ceil().max(1.0) - 1.0) * strip;
    let first = if in_turns { begun + 1e-6 * (area - begun) } else { (area - strip).max(0.0) };
    let all = (0..=PATCHES).map(|i| area * i as f64 / PATCHES as f64);
    let edge = (0..=ALONG).map(|i| first + (area - first) * i as f64 / ALONG as f64);
    all.chain(edge).collect()
}

/// Seconds that a square metre of rolling takes, edges and waiting for others counted in.
fn metre(job: &Job, (area, volume): (f64, f64), way: Way) -> f64 {
    let Way { rollers, no_faster, .. } = way;
    let helped = job.crew.cutters > 0 && !way.edges_first;
    let (crew, (beside, _)) = (&job.crew, edges(job, area, helped));
    let (hands, cutters) = (f64::from(rollers), f64::from(crew.cutters));
    // Nobody rolls faster than they can; and all hands together do all the work there is.
    let work = 1.0 / crew.roll.value + beside / crew.cut.value;
    let mut metre = (1.0 / (crew.roll.value * hands)).max(work / (hands + cutters));
    if let Pouring::Ribbon(rate) = crew.pouring {
        metre = metre.max(volume / (rate.value * area));
    }
    no_faster.map_or(metre, |pace| metre.max(1.0 / pace))
}

/// Edges by the square metre, and where a batch begins; sides across are brushed first, or, by
/// people who only cut in, as it goes.
fn edges(job: &Job, area: f64, helped: bool) -> (f64, f64) {
    let cut_in = &job.bare.cut_in;
    let met = cut_in.corners.iter().filter(|corner| area > corner.beyond.value);
    let across: f64 = met.map(|corner| corner.edge.value).sum();
    if helped {
        (cut_in.per_area + across / area, cut_in.at_start.value)
    } else {
        (cut_in.per_area, cut_in.at_start.value + across)
    }
}

/// From A meets B to the first drop.
fn getting_ready(job: &Job) -> f64 {
    job.product.mixing().value + 60.0 + job.product.induction().value + job.crew.carry.value
}

/// A clean pail, and what goes into it: jug after jug filled from each can, or a mark a can; a can
/// that is emptied as it is costs a look as well.
fn setting_up(job: &Job, volume: f64) -> f64 {
    let mut seconds = job.crew.clean_pail.value;
    if job.crew.measured_ahead {
        return seconds;
    }
    let mixed = Volume::new::<unit::cubic_meter>(volume);
    let kits = job.gear.kits.as_ref();
    let kits = kits.and_then(|rule| rule.at_most(job.product.ratio(), mixed));
    for can in job.product.ratio().split(mixed) {
        if let Some(kits) = kits.filter(|kits| kits.halves % 2 == 0) {
            seconds += job.crew.reading.value * f64::from(kits.halves) / 2.0;
            continue;
        }
        let Measure::Jug { step } = job.gear.measure else {
            seconds += job.crew.reading.value;
            continue;
        };
        // A look at the can, then jug after jug, the last one as full as it is.
        seconds += job.crew.reading.value;
        let mut still = can.volume.value;
        let holds = f64::max(16.0 * step.value, 0.946_352_946e-3);
        while still > 0.0 {
            let jug = f64::min(still, holds);
            seconds += job.crew.reading.value * jug / holds;
            still -= jug;
        }
    }
    seconds
}

/// When A meets B in the next pail, all done by the same hands one after the other.
fn next_mix(job: &Job, volume: f64, (hands, free): (f64, f64)) -> f64 {
    let crew = &job.crew;
    let sets_up = setting_up(job, volume);
    if crew.mixers == 0 {
        return (hands + crew.carry.value + sets_up).max(free - getting_ready(job));
    }
    // No sooner than it is wanted; and then whoever else wants them may come first.
    back(job, volume).max(free - getting_ready(job)) + job.mixing.wait.value
}

/// Seconds until somebody who mixes stands there with the next batch measured out.
pub fn back(job: &Job, volume: f64) -> f64 {
    let own = away(job, volume);
    match (job.crew.mixers, job.mixing.another_back) {
        (1, _) => own,
        // One after the other, as far apart as they can be all day, or when another is back.
        (several, Some(another)) => own.min(another.value).max(own / f64::from(several)),
        (several, None) => own / f64::from(several),
    }
}

/// Seconds until whoever mixes so much stands there with the next one measured out.
pub fn away(job: &Job, volume: f64) -> f64 {
    let (crew, sets_up) = (&job.crew, setting_up(job, volume));
    // Mixes, carries, pours if it is poured, walks back. While it stands, the next is set up.
    let mut clock = job.product.mixing().value + 60.0;
    let stands_until = clock + job.product.induction().value;
    let spent = (stands_until - clock).min(sets_up);
    clock = stands_until + crew.carry.value;
    if let Pouring::Ribbon(rate) = crew.pouring {
        clock += volume / rate.value;
    }
    clock + crew.carry.value + (sets_up - spent)
}

/// The same hands roll a strip, let it settle, flake it, and go on to the next.
fn in_turns(job: &Job, (area, volume): (f64, f64), way: Way, marks: &[f64]) -> Went {
    let (crew, hands) = (&job.crew, f64::from(way.rollers));
    let ready = getting_ready(job);
    let metre = metre(job, (area, volume), way);
    let flake = crew.flake.value * hands;
    let strip = way.depth * job.bare.width.value;
    let mut t = ready;
    let helped = crew.cutters > 0 && !way.edges_first;
    if !helped {
        let brushing = crew.cut.value * (hands + f64::from(crew.cutters));
        t += edges(job, area, helped).1 / brushing;
    }
    let (mut rolled, mut done) = (vec![f64::NAN; marks.len()], vec![f64::NAN; marks.len()]);
    let mut from = 0.0;
    while from < area * (1.0 - 1e-12) {
        let to = f64::min(from + strip, area);
        let hair = 1e-12 * area;
        let (rolling, flaking) = (t, t + (to - from) * metre + crew.settle.value);
        for ((mark, rolled), done) in marks.iter().zip(&mut rolled).zip(&mut done) {
            if rolled.is_nan() && (from - hair..=to + hair).contains(mark) {
                *rolled = rolling + (mark - from) * metre;
                *done = flaking + (mark - from) / flake;
            }
        }
        t = flaking + (to - from) / flake;
        from = to;
    }
    let left = match crew.pouring {
        Pouring::FromPail => rolled.clone(),
        Pouring::Ribbon(rate) => {
            marks.iter().map(|mark| ready + mark / area * volume / rate.value).collect()
        }
    };
    went(job, (area, volume), left, &rolled, done, (1.0 / metre, strip, way.next))
}

/// The batch as it went, and the next one rolled along its edge, metre by metre across the floor.
fn went(
    job: &Job,
    (area, volume): (f64, f64),
    left: Vec<f64>,
    rolled_at: &[f64],
    done: Vec<f64>,
    (pace, strip, next): (f64, f64, Option<Next>),
) -> Went {
    let crew = &job.crew;
    let last = |at: &[f64]| at[at.len() - 1];
    let (emptied, rolled, finished) = (last(&left), last(rolled_at), last(&done));
    let hands = if job.product.flaked() && crew.flakers == 0 { finished } else { rolled };
    // Who flakes this one still does so when the next comes to the floor, or is done by then.
    let settles = if job.product.flaked() { crew.settle.value } else { 0.0 };
    let free = hands.max(finished - settles);
    // The next batch rolls a strip along it, as large as there is floor for.
    let comes = strip.min((job.bare.area.value - area).max(0.0));
    let next = next.unwrap_or_else(|| {
        // Sides across that it meets in its first strip it brushes before it rolls.
        let cut_in = &job.bare.cut_in;
        let strip = area..area + comes;
        let ahead = cut_in.corners.iter().filter(|corner| strip.contains(&corner.beyond.value));
        let edge = ahead.map(|corner| corner.whole.value).sum::<f64>() + cut_in.ahead.value;
        let brushing = crew.cut.value * f64::from(crew.rollers + crew.cutters);
        let poured = next_mix(job, volume, (hands, free)) + getting_ready(job);
        Next { rolls: poured + edge / brushing, strip_takes: comes / pace }
    });
    let edge = (0..=ALONG).map(|i| {
        let across = i as f64 / ALONG as f64;
        let leaves = left[PATCHES + 1 + i];
        let way = if crew.same_wall { across } else { 1.0 - across };
        (leaves, next.rolls + next.strip_takes * way)
    });
    Went { emptied, edge: edge.collect(), patches: left.into_iter().zip(done).collect() }
}

/// A batch that is laid.
#[derive(Clone, Copy)]
pub struct Laying {
    /// The area that the batch covers, in square metres.
    pub area: f64,
    /// How much mix the batch is, in cubic metres.
    pub volume: f64,
    /// Another batch must meet its edge.
    pub another_follows: bool,
    /// How it does, where that is known.
    pub next: Option<Next>,
    /// How many seconds later than it could it is poured.
    pub late: f64,
    /// The share of the time of its film that counts.
    pub of_film: f64,
    /// Square metres a second at which the crew is told to roll, and no faster.
    pub told: f64,
}

/// Seconds to spare in the tightest bound, laid the best way this crew can from a pail that has
/// been walked through.
pub fn spare(job: &Job, sheet: &ProductRecord, pail: &Pail, laying: &Laying) -> f64 {
    let Laying { area, volume, late, of_film, next, .. } = *laying;
    let usable = job.crew.usable;
    let points = open_points(sheet);
    let closes = points.iter().map(|(seconds, kelvin)| k(job, *kelvin) * seconds);
    let closes = closes.fold(f64::INFINITY, f64::min);
    let fresh = open_at(&points, job.conditions.slab.value) / damp(job, sheet);
    let open = |leaves: f64| (1.0 - pail.at(leaves) / closes) * fresh;
    let hold =
        job.product.flaked() && job.crew.flakers > 0 && job.crew.pouring == Pouring::FromPail;
    let mut ways: Vec<Way> = Vec::new();
    for depth in depths(job) {
        let all = job.crew.rollers;
        let way = Way { rollers: all, no_faster: None, depth, next, edges_first: false };
        ways.extend((1..=all).map(|rollers| Way { rollers, ..way }));
        if hold {
            let flaking = job.crew.flake.value * f64::from(job.crew.flakers);
            ways.push(Way { no_faster: Some(flaking), ..way });
        }
        // Told to wait for whoever mixes, or not.
        if job.crew.pouring == Pouring::FromPail && job.crew.mixers > 0 {
            ways.push(Way { no_faster: Some(laying.told), ..way });
        }
    }
    if job.crew.cutters > 0 {
        let first = ways.clone().into_iter().map(|way| Way { edges_first: true, ..way });
        ways.extend(first);
    }
    let of = |way: Way| {
        let went = work(job, (area, volume), way);
        let mut least = usable * pail.pot_life - (went.emptied + late);
        for (left, done) in &went.patches {
            least = least.min(of_film * open(*left + late) - (done - left));
        }
        if laying.another_follows && !job.bare.ends_at_joint {
            for (left, met) in &went.edge {
                least = least.min(of_film * open(*left + late) - (met - left));
            }
        }
        least
    };
    ways.into_iter().map(of).fold(f64::NEG_INFINITY, f64::max)
}

/// How deep strips can be, in metres: marked in feet up to a throw from a dry edge, or a throw; one
/// pass of an 18 in roller where nobody throws; any from spikes.
fn depths(job: &Job) -> Vec<f64> {
    let foot = 0.3048;
    if !job.product.flaked() {
        return vec![1.5 * foot];
    }
    let throw = job.crew.throw.value;
    let feet = [1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 13.0, 16.0];
    let marked = feet.into_iter().map(|feet| feet * foot);
    let marked = marked.filter(|depth| job.crew.spikes || *depth <= throw);
    std::iter::once(throw).chain(marked).collect()
}

/// From A meets B to the first drop, in seconds.
pub fn ready(job: &Job) -> f64 {
    getting_ready(job)
}

/// Whether its film cures by the water of the air too.
fn minds_damp(sheet: &ProductRecord) -> bool {
    sheet.chemistry != Chemistry::AmineEpoxy
}

/// The open times of the sheet, in seconds and kelvin; pot life where it has none, half of it where
/// the air cures the film too.
fn open_points(sheet: &ProductRecord) -> Vec<(f64, f64)> {
    let seconds = |minutes: f64, celsius: f64| (minutes * 60.0, celsius + 273.15);
    if sheet.open_time.is_empty() {
        let part = if minds_damp(sheet) { 0.5 } else { 1.0 };
        return sheet
            .pot_life
            .iter()
            .map(|p| seconds((p.time_min * part).max(1.0), p.temperature_c))
            .collect();
    }
    sheet.open_time.iter().map(|p| seconds(p.time_min, p.temperature_c)).collect()
}

/// The open time of a fresh film at a temperature: straight in `ln t` over `1/T` between the
/// sheet's, 40 kJ/mol colder and 50 warmer, or what its own pair says where that is safer; never
/// longer where it is warmer.
fn open_at(points: &[(f64, f64)], kelvin: f64) -> f64 {
    let mut known: Vec<(f64, f64)> = points.to_vec();
    known.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.total_cmp(&b.0)));
    known.dedup_by(|longer, kept| longer.1 == kept.1);
    for i in 1..known.len() {
        known[i].0 = known[i].0.min(known[i - 1].0);
    }
    let slope = |a: (f64, f64), b: (f64, f64)| (a.0 / b.0).ln() / (1.0 / a.1 - 1.0 / b.1);
    let from = |a: (f64, f64), slope: f64| a.0 * (slope * (1.0 / kelvin - 1.0 / a.1)).exp();
    let (first, last) = (known[0], known[known.len() - 1]);
    let (mut cold, mut warm) = (40_000.0 / GAS_CONSTANT, 50_000.0 / GAS_CONSTANT);
    if known.len() > 1 {
        cold = cold.min(slope(known[0], known[1]));
        warm = warm.max(slope(known[known.len() - 2], last));
    }
    if kelvin <= first.1 {
        return from(first, cold);
    }
    if kelvin >= last.1 {
        return from(last, warm);
    }
    let right = known.iter().position(|point| point.1 >= kelvin).unwrap_or(known.len() - 1);
    from(known[right - 1], slope(known[right - 1], known[right]))
}

/// So many times sooner it closes in this air, by the water in it against 23 °C and half of what it
/// can hold (Magnus).
fn damp(job: &Job, sheet: &ProductRecord) -> f64 {
    let water = |kelvin: f64, share: f64| {
        let celsius = kelvin - 273.15;
        (17.62 * celsius / (243.12 + celsius)).exp() * share
    };
    let humidity = job.conditions.humidity.unwrap_or(0.5);
    let here = water(job.conditions.air.value, humidity);
    if minds_damp(sheet) { (here / water(296.15, 0.5)).max(1.0) } else { 1.0 }
}
