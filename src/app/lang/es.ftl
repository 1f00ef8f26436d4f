### Español, como lo dicen las cuadrillas en Norteamérica (de memoria; un lector nativo lo corrige).

## The page
page-title = Pailwise: cuánto mezclar ahora
data-sheet-first = La hoja técnica y la hoja de seguridad del producto, los códigos locales y los profesionales con licencia van antes que todo lo que diga esta herramienta.

## Settings
setting-units = Unidades
setting-units-us = ft, gal
setting-units-metric = m, L
setting-theme = Claro u oscuro
setting-theme-phone = Como el teléfono
setting-theme-light = Claro
setting-theme-dark = Oscuro

## Notices
notice-set-aside = Un registro de este teléfono estaba dañado. Se guarda, sin tocar, como “{ $key }”.
notice-newer = “{ $key }” lo escribió una versión más nueva. Se deja como está; los cambios hechos aquí no se guardan.
notice-product-gone = El último producto usado ya no está en este teléfono. Ahora se muestra { $name }: revise antes de mezclar.
notice-not-kept = Este teléfono no guarda nada ahora (lleno o desactivado). Lo que escriba se pierde al cerrar la página.

## Units
unit-none = { $n }
unit-gal = { $n } gal
unit-qt = { $n } qt
unit-fl-oz = { $n } oz líq
unit-l = { $n } L
unit-ml = { $n } mL
unit-lb = { $n } lb
unit-kg = { $n } kg
unit-sq-ft = { $n } pies²
unit-sq-m = { $n } m²
unit-ft = { $n } pies
unit-in = { $n } pulg
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
unit-sq-ft-min = { $n } pies²/min
unit-sq-m-min = { $n } m²/min
unit-ft-min = { $n } pies/min
unit-m-min = { $n } m/min

## Fields
field-less = Menos: { $what }
field-more = Más: { $what }
field-unreadable = “{ $given }” no se puede leer aquí. Escriba un número de { $low } a { $high }.
field-out-of-range = { $given } está fuera de { $low } a { $high }.

## The Mix screen: questions
mix-questions = Lo que hay ahora
mix-answer = La próxima tanda
question-product = Producto
question-warm = Qué tan caliente
question-floor = Lo que falta
question-crew = Quiénes están
question-pail = Cubeta
now-warm = losa { $slab }, aire { $air }, material { $material }
now-floor = { $area }, { $width } de ancho
now-crack = { $length } de grieta, { $width } de ancho, { $depth } de fondo
now-crew = con rodillo { $rollers }
now-crew-filling = rellenando { $rollers }
now-product-invented = { $name } (inventado)
now-crew-flaked = con rodillo { $rollers }, hojuelas { $flakers }
now-crew-mixer = , alguien mezcla
ask-slab = Losa
ask-air = Aire
ask-material = Material en los botes
ask-area = Piso que falta
ask-width = Ancho
ask-crack-length = Largo de grietas
ask-crack-width = Ancho de la grieta
ask-crack-depth = Fondo de la grieta
ask-take-up = Lo absorbe la losa áspera
ask-loss = Queda en cubeta y herramientas
ask-rollers = Personas con rodillo o rellenando
ask-flakers = Personas solo con hojuelas
ask-roll-pace = Una persona cubre con rodillo
ask-flake-pace = Una persona esparce
ask-crack-pace = Grieta rellenada
ask-throw = Alcance al esparcir
ask-carry = Llevar hasta el piso
ask-reserve = Del tiempo que hay, usar
ask-largest-mass = Lo máximo en una cubeta
ask-mixer = Alguien está libre para mezclar la próxima
ask-ribbon = Se vacía toda en un cordón
ask-ends-at-joint = Esta tanda puede terminar en una junta o cinta
favourite = Favorito: { $name }
product-invented = inventado
role-filler = pasta para grietas
role-primer = imprimación
role-base = capa base
role-topcoat = capa final
role-other = otro
vessel-five-quart = 5 qt
vessel-five-liter = 5 L
vessel-two-gallon = 2 gal
vessel-eight-liter = 8 L
vessel-five-gallon = 5 gal
vessel-twenty-liter = 20 L

## The Mix screen: the answer
answer-mix = Mezcle
answer-covers = cubre { $area }, hasta { $reach } de aquí
answer-finishes = termina los { $area } que faltan
answer-left-over = Unos { $left } de esto sobran: esta manera de medir no tiene un paso más chico. Una báscula tal vez sí.
answer-fills = rellena { $length } de grieta
no-product = No hay productos en este teléfono.
no-answer = No hay respuesta hasta corregir esto:
no-answer-unreadable = { $what }: no es un número
no-answer-out-of-range = { $what }: fuera de lo posible
refused = Ninguna tanda cabe, por chica que sea.
refused-why = { $bound }: aun una mezcla de { $smallest } necesitaría { $needs }, y hay { $has }.
refused-helps = Lo que ayudaría:

part = Parte { $label }
split = Las partes
split-way = Cómo mide
way-jug = Jarra
way-stick = Regla
way-scale = Báscula
step-jug = { $what }, en la jarra
step-stick = { $what }, hasta esta marca en la regla ({ $amount })
step-scale-first = Cubeta vacía en la báscula, tara. { $what } hasta que la báscula marque esto
step-scale = { $what }: agregue { $mass }, hasta que la báscula marque esto
step-additive = { $what }: revuélvalo antes de seguir
step-additive-scale = { $what } hasta que la báscula marque esto; revuélvalo antes de seguir
step-mix = Mezcle { $time }, raspe los lados, pase a otra cubeta y mezcle 1 min más
step-stand = Déjelo reposar { $time }
split-off-over = El redondeo deja { $share } de más en una parte después de A; el producto permite { $tolerance }.
split-off-under = El redondeo deja { $share } de menos en una parte después de A; el producto permite { $tolerance }.
pail-picture = La cubeta, llena en este orden:
caution-mixing = Guantes, lentes, aire. Use el respirador que indica la hoja de seguridad.

time = Cuánto tiempo hay
time-from = Contado desde que A se junta con B.
time-pour = En el piso desde
time-emptied = Cubeta vacía a los
time-rolled = Rodillo terminado a los
time-flaked = Hojuelas terminadas a los
time-filled = Relleno terminado a los
time-next = Empiece la próxima mezcla a los
time-latest = Nunca en la cubeta pasados { $pour_out }. La vida de la mezcla de esta cantidad es de unos { $pot_life }, y se calienta: vacíela en capa delgada antes.
bar-pail = En la cubeta
bar-roll = Rodillo
bar-flake = Hojuelas
bar-fill = Relleno
bar-minutes = min
bar-picture = Fuera de la cubeta antes de { $emptied }, de una vida de la mezcla de { $pot_life }; terminado antes de { $done }, y la película se cierra a los { $open }.

heat = Calor y tiempo
heat-pot-life = Vida de la mezcla según la temperatura
heat-pot-life-note = Cada línea es esa cantidad en una cubeta a tres cuartos (la menor: un vaso chico), con el aire igual de caliente que el material.
heat-pot-life-picture = La vida de la mezcla baja con el calor y con la cantidad en la cubeta. Ahora: { $time } para { $volume } a { $temperature }.
heat-now = ahora { $time }
heat-standing = Si esta cubeta se queda parada
heat-out-by = límite { $time }
heat-gels = gelifica { $time }
heat-left-standing = Parada llega a unos { $peak } a los { $after }; su centro podría llegar a { $core }. No espere a verlo.

holds = Lo que la limita
holds-adds = +{ $area }
bound-name-floor = Piso que falta
bound-name-vessel = Cubeta
bound-name-mass = Lo máximo permitido
bound-name-pail-life = Vida de la mezcla
bound-name-open-time = Tiempo abierto
bound-name-wet-edge = Borde húmedo
bound-floor = El piso que falta: nada más la limita.
bound-vessel = La cubeta: a más de tres cuartos no se puede mezclar.
bound-mass = Lo máximo que usted permite en una cubeta.
bound-pail-life = La vida de la mezcla: más no saldría de la cubeta a tiempo.
bound-open-time = El tiempo abierto: con más, se cerraría antes de terminar.
bound-wet-edge = El borde húmedo: con más, el borde secaría antes de que llegue la próxima tanda.
change-roller = Una persona más con rodillo
change-flaker = Una persona más con hojuelas
change-mixer = Alguien libre para mezclar
change-ribbon = Vaciarla en un cordón
change-joint = Terminar en una junta o cinta
change-cooler = Material { $by } más frío
gap-mass = La hoja técnica no da la masa de su vida de la mezcla: se toma un vaso chico, el lado seguro.
gap-temperature = La hoja técnica da la vida de la mezcla a una sola temperatura: se usa una pendiente típica, como la mitad del tiempo por cada 18 °F (10 °C) más.
gap-open-time = La hoja técnica no da tiempo abierto: se usa la vida de la mezcla.

how = De dónde sale esto
source-data-sheet = (hoja técnica)
source-entered = (como se escribió)
source-arithmetic = (aritmética)
source-published = (ecuación publicada)
source-practice = (práctica común, sin fuente)
source-typical = (típico, de memoria)
work-sheet-pot-life = Vida de la mezcla en la hoja técnica: { $time } a { $temperature } para { $mass }.
work-energy-fitted = Sus temperaturas dan una energía de activación de { $energy } (Arrhenius).
work-energy-typical = Solo una temperatura, así que una energía de activación típica: { $energy } (Arrhenius).
work-heat-typical = Calor de reacción { $heat }, típico de su química.
work-heat-given = Calor de reacción { $heat }.
work-pot-life = { $mass }, a { $material } en aire de { $air }, se calienta sola y dura { $time } (velocidad según Horie, con su propio calor).
work-pour-out = Cuente con { $reserve } de { $pot_life }: fuera de la cubeta antes de { $time } a más tardar.
work-emptied = Mezclada, reposada, llevada y vaciada, la cubeta queda vacía a los { $time }.
work-rolled = { $area } a { $pace }: con rodillo antes de { $time }.
work-flaked = { $area } a { $pace }, una franja detrás del rodillo: con hojuelas antes de { $time }.
work-open-left = Sobre losa a { $slab } lo último vaciado queda abierto { $time }; { $reserve } de eso son { $usable }.
work-bound-floor = Falta de piso: { $area }.
work-bound-vessel = La cubeta a tres cuartos cubriría { $area }.
work-bound-mass = Lo máximo permitido en una cubeta cubriría { $area }.
work-bound-pail = Solo la vida de la mezcla permitiría { $area }.
work-bound-open = Solo el tiempo abierto permitiría { $area }.
work-bound-lap = Solo el borde húmedo permitiría { $area }.
work-area = Lo menor de esto, redondeado a lo que se puede medir: { $area }.
work-volume = { $area } × { $film } × (1 + { $take_up } absorbido) ÷ (1 − { $loss } perdido) = { $volume }.
work-measured = Como se mide: { $volume }, { $mass }, proporción desviada { $off_by }.

## Errors from the calculation
error-not-a-number = { $what } no es un número.
error-out-of-range = { $what }: { $given } está fuera de { $low } a { $high }.
error-missing = Falta { $what }.
error-contradiction = { $what } contradice { $other }.
error-inconsistent = Las vidas de la mezcla de la hoja técnica no concuerdan: el punto { $point } dice { $given }, los demás llevan a { $expected }.
error-implausible = Las vidas de la mezcla de la hoja técnica dan una energía de activación de { $fitted }; lo creíble va de { $low } a { $high }. Revise las cifras.
error-too-coarse = Tan poco no se puede medir en proporción de esta manera. La tanda más chica que sirve es { $smallest }; o mida más fino.
error-does-not-fit = { $asked } no cabe: la cubeta tiene { $holds }.
error-no-solution = El cálculo no llegó a un resultado con estas cifras. No mezcle a ojo; revise lo que escribió.

## Cautions
cautions = Precauciones
caution-skin = Los endurecedores sin curar y los isocianatos sensibilizan piel y pulmones: guantes, lentes, ventilación, el respirador que indica la hoja de seguridad.
caution-hot = Una masa que cura puede pasar de 150 °C (300 °F). Nunca le ponga la tapa, nunca se asome ni se ponga sobre la cubeta.
caution-leftovers = Extienda los sobrantes en capa delgada afuera para que curen. No eche agua ni solvente a una cubeta caliente.
caution-acid = Al atacar con ácido: ácido al agua, nunca agua al ácido. Enjuague, neutralice, respete las reglas de desagüe.
caution-slip = El piso mojado y las hojuelas frescas resbalan.
