### English. Figures stand in { $braces }; every language names the same ones.

## The page
page-title = Pailwise: how much to mix next
data-sheet-first = The product's data sheet and safety data sheet, local codes and licensed practice come before anything this tool says.

## Settings
setting-units = Units
setting-units-us = ft, gal
setting-units-metric = m, L
setting-theme = Light or dark
setting-theme-phone = As the phone
setting-theme-light = Light
setting-theme-dark = Dark

## Notices
notice-set-aside = A record on this phone was damaged. It is kept, untouched, under “{ $key }”.
notice-newer = “{ $key }” was written by a newer version. It is left as it is; changes made here will not be kept.
notice-product-gone = The product used last is not on this phone any more. Now showing { $name }: check before you mix.
notice-not-kept = This phone will not store anything now (full, or switched off). What you enter is lost when the page closes.

## Units
unit-none = { $n }
unit-gal = { $n } gal
unit-qt = { $n } qt
unit-fl-oz = { $n } fl oz
unit-l = { $n } L
unit-ml = { $n } mL
unit-lb = { $n } lb
unit-kg = { $n } kg
unit-sq-ft = { $n } sq ft
unit-sq-m = { $n } m²
unit-ft = { $n } ft
unit-in = { $n } in
unit-m = { $n } m
unit-mm = { $n } mm
unit-mil = { $n } mil
unit-um = { $n } µm
unit-f = { $n } °F
unit-c = { $n } °C
unit-s = { $n } s
unit-min = { $n } min
unit-h = { $n } h
unit-percent = { $n } %
unit-sq-ft-min = { $n } sq ft/min
unit-sq-m-min = { $n } m²/min
unit-ft-min = { $n } ft/min
unit-m-min = { $n } m/min

## Fields
field-less = Less: { $what }
field-more = More: { $what }
field-unreadable = “{ $given }” cannot be read here. Type a number from { $low } to { $high }.
field-out-of-range = { $given } is outside { $low } to { $high }.

## The Mix screen: questions
mix-questions = What is true now
mix-answer = The next batch
question-product = Product
question-warm = How warm
question-floor = Left to do
question-crew = Who is here
question-pail = Pail
now-warm = slab { $slab }, air { $air }, material { $material }
now-floor = { $area }, { $width } wide
now-crack = { $length } of crack, { $width } wide, { $depth } deep
now-crew = rolling { $rollers }
now-crew-filling = filling { $rollers }
now-product-invented = { $name } (invented)
now-crew-flaked = rolling { $rollers }, flaking { $flakers }
now-crew-mixer = , somebody mixing
ask-slab = Slab
ask-air = Air
ask-material = Material in the cans
ask-area = Bare floor left
ask-width = Width across
ask-crack-length = Length of cracks
ask-crack-width = Width of crack
ask-crack-depth = Depth of crack
ask-take-up = Soaked up by a rough slab
ask-loss = Left on pail and tools
ask-rollers = People rolling, or filling
ask-flakers = People only throwing flake
ask-roll-pace = One person rolls
ask-flake-pace = One person flakes
ask-crack-pace = Crack filled
ask-throw = A throw reaches
ask-carry = Carry to the floor
ask-reserve = Of the time there is, plan to use
ask-largest-mass = Most allowed in one pail
ask-mixer = Somebody is free to mix the next one
ask-ribbon = Poured out in a ribbon at once
ask-ends-at-joint = This batch may end at a joint or tape line
favourite = Favourite: { $name }
product-invented = invented
role-filler = crack paste
role-primer = primer
role-base = base coat
role-topcoat = topcoat
role-other = other
vessel-five-quart = 5 qt
vessel-five-liter = 5 L
vessel-two-gallon = 2 gal
vessel-eight-liter = 8 L
vessel-five-gallon = 5 gal
vessel-twenty-liter = 20 L

## The Mix screen: the answer
answer-mix = Mix
answer-covers = covers { $area }, to { $reach } from here
answer-finishes = finishes the { $area } that is left
answer-left-over = About { $left } of this is more than is needed: this way of measuring has no smaller step. A scale may.
answer-fills = fills { $length } of crack
no-product = No product on this phone.
no-answer = No answer until this is fixed:
no-answer-unreadable = { $what }: not a number
no-answer-out-of-range = { $what }: outside what it can be
refused = No batch fits, however small.
refused-why = { $bound }: even a mix of { $smallest } would need { $needs }, and there is { $has }.
refused-helps = What would help:

part = Part { $label }
split = The split
split-way = How you measure
way-jug = Jug
way-stick = Stick
way-scale = Scale
step-jug = { $what }, in the jug
step-stick = { $what }, up to this mark on the stick ({ $amount })
step-scale-first = Empty pail on the scale, tare. { $what } until the scale reads this
step-scale = { $what }: add { $mass }, until the scale reads this
step-additive = { $what }: stir it in before going on
step-additive-scale = { $what } until the scale reads this; stir it in before going on
step-mix = Mix { $time }, scrape the sides, empty into a second pail and mix 1 min more
step-stand = Let it stand { $time }
split-off-over = Rounding leaves { $share } too much of a part after A; the product allows { $tolerance }.
split-off-under = Rounding leaves { $share } too little of a part after A; the product allows { $tolerance }.
pail-picture = The pail, filled in this order:
caution-mixing = Gloves, eye protection, air. Wear the respirator the safety data sheet names.

time = How long
time-from = Counted from the moment A meets B.
time-pour = On the floor from
time-emptied = Pail empty at
time-rolled = Rolled by
time-flaked = Flaked by
time-filled = Filled by
time-next = Start the next mix at
time-latest = Never in the pail past { $pour_out }. The pot life of this much is about { $pot_life }, and it gets hot: pour it out thin before then.
bar-pail = In the pail
bar-roll = Rolling
bar-flake = Flaking
bar-fill = Filling
bar-minutes = min
bar-picture = Out of the pail by { $emptied } of a pot life of { $pot_life }; finished by { $done }, and the film closes at { $open }.

heat = Warmth and time
heat-pot-life = Pot life against temperature
heat-pot-life-note = Each line is so much in one pail, three quarters full (the least: a small cup), with the air as warm as the material.
heat-pot-life-picture = Pot life falls as it gets warmer and as there is more in the pail. Now: { $time } for { $volume } at { $temperature }.
heat-now = now { $time }
heat-standing = If this pail is left standing
heat-out-by = limit { $time }
heat-gels = gels { $time }
heat-left-standing = Left standing it reaches about { $peak } after { $after }; its core could reach { $core }. Do not wait for it.

holds = What holds it back
holds-adds = +{ $area }
bound-name-floor = Floor left
bound-name-vessel = Pail
bound-name-mass = Most allowed
bound-name-pail-life = Pot life
bound-name-open-time = Open time
bound-name-wet-edge = Wet edge
bound-floor = The floor that is left: nothing else holds it back.
bound-vessel = The pail: more than three quarters full cannot be stirred.
bound-mass = The most you allow in one pail.
bound-pail-life = Pot life: more would not leave the pail in time.
bound-open-time = Open time: more would close before it is finished.
bound-wet-edge = Wet edge: with more, the edge would dry before the next batch meets it.
change-roller = One more person rolling
change-flaker = One more person flaking
change-mixer = Somebody free to mix
change-ribbon = Pour it out in a ribbon
change-joint = End at a joint or tape line
change-cooler = Material { $by } cooler
gap-mass = The data sheet gives no mass with its pot life: a small cup is assumed, the safe side.
gap-temperature = The data sheet gives pot life at one temperature: a typical slope is used, about half the time for each 18 °F (10 °C) more.
gap-open-time = The data sheet gives no open time: pot life stands in for it.

how = How this came about
source-data-sheet = (data sheet)
source-entered = (as entered)
source-arithmetic = (arithmetic)
source-published = (published equation)
source-practice = (common practice, no source)
source-typical = (typical, from memory)
work-sheet-pot-life = Pot life on the data sheet: { $time } at { $temperature } for { $mass }.
work-energy-fitted = Its temperatures give an activation energy of { $energy } (Arrhenius).
work-energy-typical = One temperature only, so a typical activation energy: { $energy } (Arrhenius).
work-heat-typical = Heat of reaction { $heat }, typical of its chemistry.
work-heat-given = Heat of reaction { $heat }.
work-pot-life = { $mass } of it, at { $material } in air of { $air }, heats itself and lasts { $time } (rate after Horie, with its own heat).
work-pour-out = Plan on { $reserve } of { $pot_life }: out of the pail by { $time } at the latest.
work-emptied = Mixed, stood, carried and poured, the pail is empty at { $time }.
work-rolled = { $area } at { $pace }: rolled by { $time }.
work-flaked = { $area } at { $pace }, a strip behind the roller: flaked by { $time }.
work-open-left = On a slab at { $slab } the last material poured stays open { $time }; { $reserve } of that is { $usable }.
work-bound-floor = Left on the floor: { $area }.
work-bound-vessel = The pail three quarters full would cover { $area }.
work-bound-mass = The most you allow in one pail would cover { $area }.
work-bound-pail = Pot life alone would allow { $area }.
work-bound-open = Open time alone would allow { $area }.
work-bound-lap = The wet edge alone would allow { $area }.
work-area = The least of these, rounded to what can be measured: { $area }.
work-volume = { $area } × { $film } × (1 + { $take_up } soaked up) ÷ (1 − { $loss } lost) = { $volume }.
work-measured = As measured: { $volume }, { $mass }, ratio off by { $off_by }.

## Errors from the calculation
error-not-a-number = { $what } is not a number.
error-out-of-range = { $what }: { $given } is outside { $low } to { $high }.
error-missing = { $what } is missing.
error-contradiction = { $what } contradicts { $other }.
error-inconsistent = The data sheet's pot lives disagree: point { $point } says { $given }, the others lead to { $expected }.
error-implausible = The data sheet's pot lives give an activation energy of { $fitted }; believable is { $low } to { $high }. Check the figures.
error-too-coarse = So little cannot be measured on ratio this way. The smallest batch that works is { $smallest }; or measure more finely.
error-does-not-fit = { $asked } does not fit: the pail holds { $holds }.
error-no-solution = The calculation did not settle for these figures. Do not mix on a guess; check what was entered.

## Cautions
cautions = Cautions
caution-skin = Uncured hardeners and isocyanates sensitise skin and lungs: gloves, eyes, ventilation, the respirator the safety data sheet names.
caution-hot = A curing mass can pass 300 °F (150 °C). Never close the lid on it, never stand over it.
caution-leftovers = Spread leftovers thin outdoors to cure. Do not add water or solvent to a hot pail.
caution-acid = Etching: acid into water, never water into acid. Rinse, neutralise, mind the run-off rules.
caution-slip = Wet floors and fresh flake are slippery.
