"""Short texts in Spanish, in Spain's words and America's: crowns gone on with, decreases told in a sentence, sizes.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

TEXTS = [
    # gone on with
    (
        (
            "Primera disminución: *7 derechos, 2 juntos*. 32 puntos.\n"
            "Teja 1 vuelta sin disminuir.\n"
            "Segunda disminución: *6 derechos, 2 juntos*. 28 puntos.\n"
            "Repita estas dos vueltas, cada vez con un derecho menos, hasta tener 20 puntos."
        ),
        36,
        [32, 32, 28, 28, 24, 24, 20],
    ),
    (
        (
            "V. 1: *4 p. der., 2 p. juntos der.*: 60 p.\n"
            "V. 2: p. der.\n"
            "V. 3: *3 p. der., 2 p. juntos der.*: 48 p.\n"
            "Continuar así, con menguados en cada v. y 1 p. menos cada vez, hasta tener 12 p."
        ),
        72,
        [60, 60, 48, 36, 24, 12],
    ),
    (
        (
            "V. siguiente: *4 p. d., 2 p. juntos*; repetir (60 p.). Hacer 1 v. lisa.\n"
            "V. siguiente: *3 p. d., 2 p. juntos*; repetir (48 p.). Hacer 1 v. lisa.\n"
            "Prosiga al mismo ritmo hasta que no haya más que 12 p."
        ),
        72,
        [60, 60, 48, 48, 36, 36, 24, 24, 12],
    ),
    (
        (
            "Vuelta 9: *5 pts, 2 jtos* (60 pts).\n"
            "Vuelta 10: al derecho.\n"
            "Desde la vuelta 11 en adelante se disminuye vuelta por medio hasta los 40 pts.\n"
            "Vuelta final: 2 jtos (20 pts)."
        ),
        70,
        [60, 60, 50, 50, 40, 20],
    ),
    (
        (
            "8 marcadores cada 10 p.\n"
            "V. de dism.: *tejer hasta 2 p antes del marcador, 2jd* (72 p).\n"
            "V. de descanso: todo al derecho.\n"
            "Haz 3 veces en total las dos vueltas (56 p).\n"
            "Haz otras 2 veces la v. de dism., ya sin vueltas de descanso (40 p)."
        ),
        80,
        [72, 72, 64, 64, 56, 56, 48, 40],
    ),
    (
        (
            "Disminuir así: *2 p. juntos, d. hasta la marca*, 5 veces (75 p.); 1 vuelta d. Repetir todo 2 "
            "veces más (65 p.)."
        ),
        80,
        [75, 75, 70, 70, 65, 65],
    ),
    (
        (
            "Vuelta 1: *tejer 22, 2jd*, 4 veces. 92 pts.\n"
            "Vueltas 2 y 3: sin disminuir.\n"
            "Hacer lo mismo (una vuelta con disminución y dos sin ella) 2 veces más. 84 pts."
        ),
        96,
        [92, 92, 92, 88, 88, 88, 84, 84, 84],
    ),
    (
        (
            "v. 1 *4 d, 2 j d* = 60\n"
            "v. 2 todo al d\n"
            "v. 3 *3 d, 2 j d* = 48\n"
            "v. 4-6 una disminución menos espaciada en todas las vueltas, hasta 12"
        ),
        72,
        [60, 60, 48, 36, 24, 12],
    ),
    (
        (
            "8 agrupaciones de 9 p.\n"
            "Dism. 8 p. en la siguiente v. (*7, 2 p. juntos*), otros 8 p. a las 3 v. (*6, 2 p. juntos*) y "
            "luego 8 p. en v. alternas hasta que queden 40 p."
        ),
        72,
        [64, 64, 64, 56, 56, 48, 48, 40],
    ),
    (
        (
            "Gorro trenzado (9 motivos de 12 p.: 6 p. rev. y 6 p. trenza)\n"
            "Disminución 1.ª: en cada motivo, 2 p. rev. juntos, 2 p. rev., 2 p. rev. juntos, tejer la "
            "trenza (90 p.).\n"
            "Trabajar 2 v. según se ven.\n"
            "Disminución 2.ª: en cada motivo, (2 p. rev. juntos) dos veces, trenza (72 p.)."
        ),
        108,
        [90, 90, 90, 72],
    ),
    (
        (
            "Coloco 7 marcadores y en cada uno tejo juntos los dos puntos de antes. Así bajo a 105.\n"
            "Doy una vuelta lisa y repito, y así hasta tener 13 puntos por gajo (91).\n"
            "Ya no doy vueltas lisas: bajo en todas, de 91 a 84, de 84 a 77, y así hasta 70."
        ),
        112,
        [105, 105, 98, 98, 91, 84, 77, 70],
    ),
    # needles, markers and marked stitches
    (
        (
            "Marca con un hilo los puntos 12, 36, 60 y 84.\n"
            "Vuelta de disminución: *der. hasta 1 p. antes del p. marcado, 1 dism. doble centrada*, repetir "
            "3 veces más, acabar la vuelta al derecho (8 p. menos).\n"
            "Vuelta siguiente: al derecho.\n"
            "Repetir estas 2 vueltas 2 veces más: 72 p."
        ),
        96,
        [88, 88, 80, 80, 72, 72],
    ),
    (
        (
            "4 agujas con 26 p. en cada una.\n"
            "Vta. 1: en cada ag., 1 surjete sencillo, 22 p. der., 2 p. juntos der. (96 p.).\n"
            "Vta. 2: p. der.\n"
            "Repetir estas disminuciones al comienzo y al final de cada ag., en vtas. alternas, hasta que "
            "queden 22 p. por ag. (88 p.)."
        ),
        104,
        [96, 96, 88],
    ),
    (
        (
            "Poner 80 puntos en 4 agujas.\n"
            "En cada aguja se toman juntos los dos primeros puntos y los dos últimos, con lo que en cada "
            "vuelta se menguan 8 puntos. Las disminuciones se hacen en vueltas alternas, 3 veces.\n"
            "Se hace una vuelta sin menguar."
        ),
        80,
        [72, 72, 64, 64, 56, 56],
    ),
    (
        (
            "76 puntos en 4 agujas.\n"
            "Disminuye 1 punto en cada aguja, tejiendo juntos los últimos 2. Quedan 72."
        ),
        76,
        [72],
    ),
    (
        (
            "Poner una señal cada 11 p.\n"
            "*Der. hasta 2 p. antes de la señal, 2 p. cogidos juntos*, en las 6 señales (60)."
        ),
        66,
        [60],
    ),
    (
        (
            "Marca cada 9 p con un anillo (10 anillos).\n"
            "1ª vta: 2 p antes de cada anillo haz 1 disminución a la izquierda. Quedan 80 p."
        ),
        90,
        [80],
    ),
    (
        ("Marcar cada 9 p.\nEn la v. sig., antes de cada marca: 1 surjete simple = 64 p."),
        72,
        [64],
    ),
    # work told in a sentence
    (
        "V. 1: *2 p. del derecho, en el p. siguiente hacer 2 p. (por delante y por detrás)* (96 p.).",
        72,
        [96],
    ),
    (
        "V. 1: *7 d., en el siguiente p. tejer 2 p (uno por delante y otro por detrás)* = 81 p.",
        72,
        [81],
    ),
    (
        "Vuelta 1: 8 puntos, dism. doble, 7 puntos; esto, 5 veces. (80 puntos)",
        90,
        [80],
    ),
    (
        "V1: *2 d, ddd, 12 d, 2jd* x 5 = 80 p",
        90,
        [80],
    ),
    (
        "Vuelta 1: *10 d., 1 disminución a la izquierda (ssk)*. Quedan 88 p.",
        96,
        [88],
    ),
    (
        "V. 1: *3 d, 3 j d, 3 d*, 7 veces (49 p)",
        63,
        [49],
    ),
    (
        "*3 p., 2 p. juntos* = 48 p. Tej. 1 v. y dism. 12 p. en cada una de las 3 v. siguientes (12 p.).",
        60,
        [48, 48, 36, 24, 12],
    ),
    (
        (
            "*6 p. del derecho, 2 p. juntos*, repetir (70 p.). 1 vuelta sin menguar.\n"
            "Seguir menguando 10 p. cada dos vueltas, hasta quedar 50 p., y tejer una última vuelta de 2 p. "
            "juntos (25 p.)."
        ),
        80,
        [70, 70, 60, 60, 50, 25],
    ),
    (
        "vuelta 1.ª, 1 del der. y los demás, 2 juntos del der. (13 p.);",
        25,
        [13],
    ),
    (
        "vuelta 1.ª, 2 juntos del der. siempre (25 p.);",
        50,
        [25],
    ),
    # plain work
    (
        ("Pasar a las ag. n.º 3 y seguir a p. jersey der. durante 4 v.\nV. siguiente: *10 d, 2jd* (66 p)."),
        72,
        [72, 72, 72, 72, 66],
    ),
    (
        (
            "Sigue a punto jersey, 2 vueltas en gris y 3 en azul, 2 veces en total.\n"
            "V. siguiente: *10 d, 2jd* (66 p)."
        ),
        72,
        [72, 72, 72, 72, 72, 72, 72, 72, 72, 72, 66],
    ),
    (
        ("Teje el calado del gráfico durante 3 v.\nV. siguiente: *10 d, 2jd* (66 p)."),
        72,
        [72, 72, 72, 66],
    ),
    (
        (
            "Trabajar las 3 v. del esquema, repitiendo 6 veces el dibujo de 12 p.\n"
            "V. siguiente: *10 d, 2jd* (66 p)."
        ),
        72,
        [72, 72, 72, 66],
    ),
    (
        (
            "Vuelta 1: 1 d, (8 p de arroz, 2jd) 8 veces: quedan 73.\n"
            "Vuelta 2: punto arroz sobre todos los puntos."
        ),
        81,
        [73, 73],
    ),
    (
        "1.ª v. *2 p. rev. juntos, 2 p. rev., 6 p. de trenza*, 8 veces = 72 p.",
        80,
        [72],
    ),
    (
        ("V. 1: *4 d, 2jd*, por todo el contorno. Restan 60 p.\nCierra con dos pasadas de hilo."),
        72,
        [60],
    ),
    (
        (
            "Vta. 1: * 8 p. der., 2 p. j. der. *, repetir de * a * (36 p.). Repetir esta disminución, con 1 "
            "p. menos entre disminuciones cada vez, en las vtas. 3 y 5 (28 p.) y, sin vtas. intermedias, en "
            "las vtas. 6, 7 y 8 (16 p.).\n"
            "Vta. 9: lisa."
        ),
        40,
        [36, 36, 32, 32, 28, 24, 20, 16, 16],
    ),
    (
        (
            "Empezá la vuelta: tejé 10 puntos al derecho y los 2 siguientes juntos al derecho, y repetí "
            "hasta terminar la vuelta. Te quedan 44 puntos.\n"
            "La vuelta siguiente va toda al derecho, sin disminuir.\n"
            "Ahora tejé 9 puntos y 2 juntos toda la vuelta (40 puntos) y otra vez una vuelta lisa.\n"
            "Seguí igual, con un punto menos antes de los 2 juntos y una vuelta lisa en el medio, hasta "
            "tejer la vuelta que te deja 36 puntos.\n"
            "De ahí en más disminuí en todas las vueltas, hasta que te queden 32 puntos."
        ),
        48,
        [44, 44, 40, 40, 36, 32],
    ),
    (
        (
            "Se hace en cada una de las tres agujas: un punto del derecho, dos puntos juntos, se sigue del "
            "derecho hasta que falten tres puntos, dos puntos juntos y un punto del derecho. Quedan 42 "
            "puntos.\n"
            "Se hace una vuelta lisa. Repítense estas dos vueltas, terminando con vuelta de menguados cuando"
            " queden 10 puntos en cada aguja, que son 30."
        ),
        48,
        [42, 42, 36, 36, 30],
    ),
    (
        (
            "Disminuya cada 2 vueltas: (8 d, 2 jd) 4 veces, 36; (7 d, 2 jd) 4 veces, 32.\n"
            "Disminuya después en cada vuelta, de 4 en 4 puntos, hasta 24."
        ),
        40,
        [36, 36, 32, 28, 24],
    ),
    (
        (
            "Teje hasta que falten 2 puntos para el marcador y júntalos. Haz lo mismo en los 8 marcadores. "
            "Te quedan 72 puntos.\n"
            "Teje una vuelta sin disminuir.\n"
            "Haz estas dos vueltas 5 veces en total, hasta tener 40 puntos, y no tejas vuelta lisa después "
            "de la última."
        ),
        80,
        [72, 72, 64, 64, 56, 56, 48, 48, 40],
    ),
    (
        (
            "Teje hasta que falten 2 puntos para el marcador y júntalos. Haz lo mismo en los 8 marcadores. "
            "Te quedan 72 puntos.\n"
            "Teje una vuelta sin disminuir.\n"
            "Haz estas dos vueltas 5 veces en total."
        ),
        80,
        [72, 72, 64, 64, 56, 56, 48, 48, 40, 40],
    ),
    (
        (
            "Teje seis puntos, dos juntos, y repite toda la vuelta: se han ido doce y te quedan 84.\n"
            "Teje una vuelta sin más.\n"
            "Vuelve a disminuir igual, con un punto menos antes de juntar: quedan 72.\n"
            "Teje otra vuelta sin más."
        ),
        96,
        [84, 84, 72, 72],
    ),
    (
        (
            "Se hacen seis puntos y un menguado, y así toda la vuelta, con lo que se pierden ocho puntos y "
            "quedan 56.\n"
            "Sigue una vuelta sin menguar.\n"
            "En la tercera vuelta se hacen cinco puntos y un menguado; quedan 48.\n"
            "Una vuelta sin menguar.\n"
            "En la quinta se hacen cuatro y un menguado; quedan 40."
        ),
        64,
        [56, 56, 48, 48, 40],
    ),
    (
        (
            "Para cerrar se hacen ocho menguados en la vuelta, esto es: seis puntos del derecho, dos juntos,"
            " y se repite.\n"
            "Síguese una vuelta lisa. Se repiten estas dos vueltas cuatro veces en todo, haciendo cada vez "
            "un punto menos entre los menguados. Quedan 32 puntos."
        ),
        64,
        [56, 56, 48, 48, 40, 40, 32, 32],
    ),
    (
        (
            "Tejé 7 puntos y los 2 que siguen tejelos juntos; hacé eso hasta el final. Se te fueron 10 y "
            "quedan 80.\n"
            "Ahora una vuelta entera derecha.\n"
            "Después tejé 6 y 2 juntos, siempre igual, y quedan 70.\n"
            "Y otra derecha."
        ),
        90,
        [80, 80, 70, 70],
    ),
    (
        (
            "Primera vuelta: 7 puntos derechos, 2 juntos, y así toda la vuelta (80).\n"
            "Segunda vuelta: toda derecha.\n"
            "Hacé estas dos vueltas cinco veces en total, con un punto menos cada vez, pero la última vuelta"
            " derecha no la tejas. Quedan 40 puntos."
        ),
        90,
        [80, 80, 70, 70, 60, 60, 50, 50, 40],
    ),
    (
        (
            "Poné un marcador cada 10 puntos. Juntá los 2 puntos de antes de cada marcador: se van 8 y te "
            "quedan 72.\n"
            "Una vuelta derecha en el medio.\n"
            "Disminuí otra vez: 64. Una vuelta derecha.\n"
            "Disminuí una última vez: 56."
        ),
        80,
        [72, 72, 64, 64, 56],
    ),
    (
        (
            "Vamos a juntar dos puntos cada ocho: teje seis, dos juntos, y repite hasta acabar. De 80 "
            "pasamos a 70.\n"
            "Tejemos una vuelta tranquila.\n"
            "Volvemos a disminuir, esta vez con cinco puntos entre disminuciones, y pasamos a 60."
        ),
        80,
        [70, 70, 60],
    ),
    (
        (
            "Teje ocho puntos y dos juntos hasta que termines la vuelta; te habrán quedado 72.\n"
            "Teje otra vuelta sin disminuir nada.\n"
            "Estas dos vueltas las repites tres veces más, y cada vez tejes un punto menos antes de los dos "
            "juntos. Al acabar tendrás 48 puntos."
        ),
        80,
        [72, 72, 64, 64, 56, 56, 48, 48],
    ),
    (
        (
            "Se hacen seis puntos, se mengua uno, y se repite lo mismo en toda la vuelta, quedando 84.\n"
            "Se hace después una vuelta sin menguar, y en la siguiente se hacen cinco puntos entre menguado "
            "y menguado, quedando 72.\n"
            "Se termina con una vuelta lisa."
        ),
        96,
        [84, 84, 72, 72],
    ),
    (
        (
            "Sin hacer más vueltas lisas, se hacen dos puntos y un menguado, y quedan 36; en la otra vuelta "
            "un punto y un menguado, y quedan 24; en la última todo menguados, y quedan doce."
        ),
        48,
        [36, 24, 12],
    ),
    (
        (
            "Tejé 9 puntos y agarrá 2 juntos hasta el final de la vuelta (80). Hacé una vuelta derecha.\n"
            "Andá disminuyendo así vuelta por medio, hasta que hayas disminuido cinco veces. Te tienen que "
            "quedar 48."
        ),
        88,
        [80, 80, 72, 72, 64, 64, 56, 56, 48],
    ),
    (
        (
            "Cierre en 8 gajos de 13 p.\n"
            "Se mengua 1 p. al final de cada gajo (2 p. juntos al derecho):\n"
            "– en la 1.ª, 5.ª, 9.ª y 13.ª v. (72 p.),\n"
            "– en la 15.ª, 17.ª, 19.ª y 21.ª v. (40 p.),\n"
            "– en la 22.ª, 23.ª, 24.ª y 25.ª v. (8 p.).\n"
            "Las demás v. se tejen sin menguados.\n"
            "Se pasa una hebra por los últimos p., se frunce y se remata con unas puntadas."
        ),
        104,
        [96, 96, 96, 96, 88, 88, 88, 88, 80, 80, 80, 80, 72, 72, 64, 64, 56, 56, 48, 48, 40, 32, 24, 16, 8],
    ),
    # the last rounds by their stitches between the decreases
    (
        (
            "*5 d, 2pjd* x 8 (48 p.). 1 vta. d.\n"
            "Dism. igual en las 4 vtas. sig., con 4, 3, 2 y 1 d antes de los 2 jd (16 p.)."
        ),
        56,
        [48, 48, 40, 32, 24, 16],
    ),
    (
        (
            "*5 d, 2pjd* x 8 (48 p.). 1 vta. d.\n"
            "En las 4 vtas. siguientes disminuir siempre, con 4, 3, 2 y 1 p. entre dism. (16 p.)."
        ),
        56,
        [48, 48, 40, 32, 24, 16],
    ),
    (
        (
            "V. 1: *5 d, 2pjd* x 8 (48 p.). V. 2: d.\n"
            "V. 3 a 6: igual, pero con 4, 3, 2 y 1 p. der. antes de los 2 p. j. (16 p.)."
        ),
        56,
        [48, 48, 40, 32, 24, 16],
    ),
    # a stitch and two together before the marker are no such list
    (
        (
            "Colocar 8 marcadores, 1 cada 11 p.\n"
            "*tejer al derecho hasta 3 p antes del marcador, 2 p jun y 1 d antes del marcador* toda la vta (80 p.)."
        ),
        88,
        [80],
    ),
    # short forms: the next round behind a count, times by their letter, the last two rounds
    (
        "*7 d, 2pjd* x 8. Vta. sig.: d.",
        72,
        [64, 64],
    ),
    (
        (
            "(7 d., 2 p.j.) 8 v. 64 p. 1 vta. d.\n"
            "Rep. las 2 últ. vtas. 2 veces más, con 1 d menos entre dism. cada vez → 48 p."
        ),
        72,
        [64, 64, 56, 56, 48, 48],
    ),
    (
        "R1: *8 der., 2 jd* x8 — 72. R2: der. R3: *7 der., 2 jd* x8 — 64. R4: der.",
        80,
        [72, 72, 64, 64],
    ),
    (
        ("V. 1: *7 d, 2pjd*. V. 2 (y pares hasta la 4): d.\nV. 3: *6 d, 2pjd* (56 p.)."),
        72,
        [64, 64, 56, 56],
    ),
    # an increase in the next stitch
    (
        "*1 d, aum. en el p. sig.*, rep. hasta el final (24 p.).",
        16,
        [24],
    ),
    # so many rounds of both kinds
    (
        (
            "V. 1: *9 d, 2 jd* (80 p). V. 2: d.\n"
            "Rep. V. 1 y V. 2, con 1 d menos cada vez, hasta completar 3 vtas. con dism. y 3 sin ellas (64 p)."
        ),
        88,
        [80, 80, 72, 72, 64, 64],
    ),
    (
        (
            "*8 d, 2pjd* x 8 (72 p.). 1 vta. d.\n"
            "Seguir alternando 1 vta. con dism. (1 p. menos cada vez) y 1 vta. d. hasta que la vta. d. se haga sobre "
            "56 p."
        ),
        80,
        [72, 72, 64, 64, 56, 56],
    ),
    # a part of a crown by any of its names
    (
        (
            "Dividimos los 84 puntos entre 7: tocan 12 por gajo.\n"
            "En cada gajo tejemos juntos los dos últimos puntos; la vuelta que viene detrás es de descanso.\n"
            "Lo hacemos dos veces en total (70 p)."
        ),
        84,
        [77, 77, 70, 70],
    ),
    (
        (
            "1.ª: 8 derechos, 2 juntos; se repite 8 veces: 72 puntos.\n"
            "2.ª y 3.ª: al derecho.\n"
            "4.ª: 7 derechos, 2 juntos: 64 puntos.\n"
            "5.ª a 7.ª: una disminución en cada porción, en todas las vueltas: 56, 48 y 40 puntos."
        ),
        80,
        [72, 72, 72, 64, 56, 48, 40],
    ),
    (
        (
            "Colocar un marcador cada 14 p.\n"
            "*Tejer al derecho hasta 2 p. antes del marcador, 2 p. juntos al derecho*. Quedan 104 p.\n"
            "Repetir estas disminuciones 1 vez más cada 4ª vuelta: 96 p.\n"
            "Después, repetirlas 2 veces más cada 2ª vuelta: 80 p."
        ),
        112,
        [104, 104, 104, 104, 96, 96, 88, 88, 80],
    ),
    # until a round of the pattern and the one behind it
    (
        (
            "V. 1: *5 d, 2pjd* 8 veces (48 p.). V. 2: d.\n"
            "Rep. V. 1 y 2 con 1 d menos antes de la dism. hasta haber hecho la V. 1 con *3 d, 2pjd* "
            "8 veces y la V. 2 (32 p.)"
        ),
        56,
        [48, 48, 40, 40, 32, 32],
    ),
    # the counts of two rounds alike, a table, a short list of counts behind their stitches
    (
        "En las 2 vueltas siguientes, ssk hasta terminar: 8 pts. y luego 4 pts.",
        16,
        [8, 4],
    ),
    (
        ("v1 | 8 d, 2jd | x7 | 63 p\nv2 | d\nv3-5 | 1 d menos cada vta. | x7 | 42 p"),
        70,
        [63, 63, 56, 49, 42],
    ),
    (
        (
            "Primera vuelta: *6 d, 2 jd* (49 p).\n"
            "Desde aquí cada vuelta lleva un punto menos delante del 2 jd, o sea: con 5 puntos (42 "
            "p), con 4 (35 p) y con 3 (28 p)."
        ),
        56,
        [49, 42, 35, 28],
    ),
    # old handbooks: plain stitches, two needles' ends, as many rounds of both kinds
    (
        (
            "Vuelta 1.ª — Doce puntos lisos, dos juntos; así toda la vuelta. Quedan 26 puntos.\n"
            "Vuelta 2.ª — Lisa.\n"
            "Vuelta 3.ª — Once puntos lisos, dos juntos. Quedan 24.\n"
            "Vuelta 4.ª — Lisa.\n"
            "Se continúa de igual manera, haciendo en cada vuelta de menguados un punto menos antes "
            "de coger dos juntos, hasta haber hecho en total cuatro vueltas menguadas y cuatro "
            "lisas. Quedan 20 puntos."
        ),
        28,
        [26, 26, 24, 24, 22, 22, 20, 20],
    ),
    (
        (
            "Con los 80 puntos en cuatro agujas, 20 en cada una:\n"
            "1.ª vuelta de menguados: en cada una de las cuatro agujas se toman 2 puntos juntos al "
            "empezar y otros 2 al terminar. Quedan 72."
        ),
        80,
        [72],
    ),
    (
        (
            "Hay 80 puntos en 4 agujas, 20 en cada aguja.\n"
            "En cada aguja, 17 puntos lisos; se pasa un punto sin hacer, se toman dos juntos y se "
            "monta sobre ellos el que se pasó. Quedan así 18 puntos en cada aguja."
        ),
        80,
        [72],
    ),
    # rounds without decreases by other names
    (
        (
            "Teje 6 puntos y 2 juntos (56 p). Una sola vuelta tranquila.\n"
            "Teje 5 puntos y 2 juntos (48 p). Otras dos vueltas de descanso."
        ),
        64,
        [56, 56, 48, 48, 48],
    ),
    # each end of a needle, a group, and the same again down to so many
    (
        (
            "Hay 80 puntos en cuatro agujas.\n"
            "En cada aguja se menguan 2 puntos: uno al principio y otro al final (72 p). Luego una "
            "vuelta lisa. Se repite lo mismo hasta que queden 14 puntos en cada aguja."
        ),
        80,
        [72, 72, 64, 64, 56],
    ),
    (
        (
            "Repartimos los 80 puntos en 8 grupos de 10.\n"
            "En cada grupo tejemos juntos los dos últimos puntos (72 p). La siguiente vuelta la "
            "hacemos sin disminuir.\n"
            "Seguimos así hasta haber hecho 4 vueltas con disminuciones y 4 sin ellas (48 p)."
        ),
        80,
        [72, 72, 64, 64, 56, 56, 48, 48],
    ),
    (
        (
            "Vta de dism: *8 d, 2pjd*, rep 8 v (72 p). Tejer 3 vtas sin dism. Rep la vta de dism cada 4 "
            "vtas 1 v más, con 1 d menos entre dism (64 p), luego cada 2 vtas 2 v (48 p)."
        ),
        80,
        [72, 72, 72, 72, 64, 64, 56, 56, 48],
    ),
    # increases between so many, the same to the end, the same round again
    (
        ("Se crece un punto después de cada tres, y quedan así 80 puntos.\nSe tejen 2 vueltas a punto liso."),
        60,
        [80, 80, 80],
    ),
    (
        (
            "Vuelta 1: 8 derechos y 2 juntos. Repite lo mismo hasta terminar la vuelta; lo harás 8 "
            "veces. Te quedan 72.\n"
            "Vuelta 2: d.\n"
            "Vuelta 3: igual que la primera, pero con 7 puntos antes de cada disminución. Te quedan 64."
        ),
        80,
        [72, 72, 64],
    ),
    (
        (
            "Colocar un marcador cada 20 p.\n"
            "Vta. de dism.: *2 jd, d hasta 2 p antes del M, ssk* (72 p).\n"
            "Hazla cada dos vueltas 3 veces más (48 p) y en todas las vueltas 2 veces (32 p)."
        ),
        80,
        [72, 72, 64, 64, 56, 56, 48, 40, 32],
    ),
    (
        (
            "Colocar un marcador cada 20 p.\n"
            "Antes de cada marcador haréis 2 juntos y 1 derecho; después de cada marcador, 1 derecho "
            "y una disminución a la izquierda (72 p)."
        ),
        80,
        [72],
    ),
    # plain rounds told beside the decreases, and a round worked now and now not
    (
        (
            "V. 1: *6 d, 2 jd* (42 p).\n"
            "V. 2: d.\n"
            "Continuar así, con una vuelta lisa después de cada vuelta de menguados, hasta que queden 24 p."
        ),
        48,
        [42, 42, 36, 36, 30, 30, 24],
    ),
    (
        ("V. 1: *6 d, 2 jd* (42 p).\nV. 2: d.\nHacer lo mismo, vuelta sí, vuelta no, hasta que queden 24 p."),
        48,
        [42, 42, 36, 36, 30, 30, 24],
    ),
    (
        (
            "Pongo un marcador cada 14 puntos (8 gajos).\n"
            "Vuelta con disminución: junto los 2 últimos puntos de cada gajo (104 puntos).\n"
            "Vuelta sin disminución.\n"
            "Voy alternando las dos hasta que me quedan 88 puntos.\n"
            "Luego hago solo vueltas con disminución hasta tener 72 y cierro."
        ),
        112,
        [104, 104, 96, 96, 88, 80, 72],
    ),
    # so many rounds that all decrease
    (
        ("V. 1: *6 d, 2 jd* (42 p).\nV. 2: d.\nEn las 3 vtas. sig. dism. igual (24 p.)."),
        48,
        [42, 42, 36, 30, 24],
    ),
    (
        ("V. 1: *6 d, 2 jd* (42 p).\nV. 2: d.\nLuego 3 vtas. con dism. en cada una (24 p.)."),
        48,
        [42, 42, 36, 30, 24],
    ),
    (
        (
            "V. 1: *6 d, 2 jd* (42 p).\n"
            "V. 2: d.\n"
            "Y tres vueltas más con 5, 4 y 3 puntos antes de los dos juntos (24 p.)."
        ),
        48,
        [42, 42, 36, 30, 24],
    ),
    # an increase that uses a stitch, by the count
    (
        "* 1 p. der., 1 aum. * (24 p.)",
        16,
        [24],
    ),
    (
        "* 1 p. der., 1 aum. * (32 p.)",
        16,
        [32],
    ),
    # ends of needles and marked places by other names
    (
        (
            "80 p. en 4 agujas, 20 p. en cada una.\n"
            "Se mengua un punto en cada extremo de las cuatro agujas. Quedan 72 p."
        ),
        80,
        [72],
    ),
    (
        (
            "Colocar un marcador cada 10 p. (8 marcadores).\n"
            "Vta. 1: una disminución junto a cada marcador. 72 p.\n"
            "Vta. 2: d."
        ),
        80,
        [72, 72],
    ),
    (
        (
            "Colocar un marcador cada 10 p. (8 marcadores).\n"
            "Vta. 1: cada vez que falten 2 p. para un marcador, tejerlos juntos. 72 p.\n"
            "Vta. 2: d."
        ),
        80,
        [72, 72],
    ),
    (
        (
            "Se teje la corona en 6 gajos: cada gajo empieza con 14 p.\n"
            "En las vueltas impares se tejen juntos los 2 primeros p. de cada gajo; las pares, al derecho.\n"
            "Se sigue hasta que quedan 11 p. en cada gajo (66 p.)."
        ),
        84,
        [78, 78, 72, 72, 66],
    ),
    (
        ("Vta. 1: *5 d, 2 jd* (48 p). Vta. 2: d.\nVta. 3 en adelante: dism. en todas las vtas. hasta 8 p."),
        56,
        [48, 48, 40, 32, 24, 16, 8],
    ),
    # in the first round so many fewer are no decrease round of that number
    (
        "En la primera vuelta disminuir 8 puntos repartidos: 80 puntos.",
        88,
        [80],
    ),
    (
        (
            "Con 8 puntos, teje cada punto por delante y por detrás (16).\n"
            "*1 derecho, en el siguiente por delante y por detrás* (24)."
        ),
        8,
        [16, 24],
    ),
    # every round by its short form, sections that end in a decrease, two joined without a word for it
    (
        ("*8 d, 2 jd* 8 v. = 72 p. 1 v. d.\nDism. así c/2 v. hasta 56 p. y en c/v. hasta 32 p."),
        80,
        [72, 72, 64, 64, 56, 48, 40, 32],
    ),
    (
        (
            "La corona se divide en siete partes de 12 puntos. Al final de cada parte se hace una "
            "disminución (2 puntos juntos): 77 puntos. La vuelta siguiente no lleva disminuciones. Se "
            "alternan estas dos vueltas hasta que queden 63 puntos, y luego se disminuye en todas hasta "
            "42."
        ),
        84,
        [77, 77, 70, 70, 63, 56, 49, 42],
    ),
    (
        (
            "Queremos 8 disminuciones en cada vuelta: tejemos 8 puntos, juntamos 2 y seguimos así (72).\n"
            "Descansamos una vuelta.\n"
            "Tejemos 7 puntos, juntamos 2 y seguimos así (64)."
        ),
        80,
        [72, 72, 64],
    ),
    # a knit round without a colon, and the same with another number
    (
        ("V1 [8 d – 2 jd] x 8 → 72\nV2 d\nV3 [7 d – 2 jd] x 8 → 64"),
        80,
        [72, 72, 64],
    ),
    (
        ("Vta. 1: *7 d, 2 jd* (64 p).\nVta. 2: sin dism.\nVta. 3: igual, con 6 d (56 p).\nVuelta derecha."),
        72,
        [64, 64, 56, 56],
    ),
    # `R1` is a round where it is worked again, and `R` behind `siguiente`
    (
        (
            "Coloca un marcador cada 12 p.\nR1: *teje hasta quedar 2 p antes del marc., 2pjd*. (88 p)\n"
            "R2: todo del derecho.\nAhora teje solo R1, en cada ronda, tres veces. (64 p)\n"
            "Siguiente R: *6 d, 2pjd* (56 p)\nÚltima R: *5 d, 2pjd* (48 p)"
        ),
        96,
        [88, 88, 80, 72, 64, 56, 48],
    ),
    # a marker is placed before some stitches; none is cast on
    (
        "V1: *pon marcador, teje 18 p* 5 veces\nV2: *2pjd, teje al derecho hasta el marcador* 5 veces (85 p)",
        90,
        [90, 85],
    ),
    # ordinals of plain rounds, which are no stitches worked together
    (
        "1. *9 der., 2 jun.*, 100 p.\n2. - 4. der.\n5. *8 der., 2 jun.*, 90 p.\n6. y 7. der.",
        110,
        [100, 100, 100, 100, 90, 90, 90],
    ),
    # a plain round between
    (
        (
            "Ronda 1: *10 der, 2pj der* (88 p)\nRonda 2: teje toda la ronda.\nRonda 3: *9 der, 2pj der* (80 p)\n"
            "Ronda 4: teje toda la ronda.\nContinúe disminuyendo de esta manera, con un pto menos entre "
            "disminuciones y una ronda lisa entre medio, hasta que queden 64 pts."
        ),
        96,
        [88, 88, 80, 80, 72, 72, 64],
    ),
    # from a round on, with a bracket behind the number
    (
        (
            "vta 1) *12 der, 2pj* (78)\nvta 2) der\nvta 3) *11 der, 2pj* (72)\nvta 4) der\n"
            "vta 5 en adelante) disminuir en todas las vueltas, siempre 6 puntos, hasta que queden 12\n"
            "última vta) todo 2pj (6)"
        ),
        84,
        [78, 78, 72, 72, 66, 60, 54, 48, 42, 36, 30, 24, 18, 12, 6],
    ),
    # a last stitch behind the decrease of each needle
    (
        (
            "Hay 25 p en cada aguja, 100 p.\nEn cada aguja, tejer 1 p, 1 surjete simple, tejer hasta los 3 últimos p, "
            "2 p juntos, 1 p. (92 p)"
        ),
        100,
        [92],
    ),
    # a last stitch that is a purl stitch
    ("Ronda 1: *2 p jun, 2 p rev*. (72 p)\nRonda 2: *2 p jun, 1 p rev* (48 p)", 96, [72, 48]),
    # the stitch passed over in short
    (
        "Vta 1: *12 d, deslizar 1, 2pjd, ppde (pasar p deslizado por encima); rep desde * (78 p)",
        90,
        [78],
    ),
]

SIZES = [
    (
        (
            "Tallas: niña y mujer\n"
            "Talla niña – 70 p.\n"
            "Vuelta 1: *8 d., 2 juntos*; 7 veces (63).\n"
            "Vuelta 2: d.\n"
            "Talla mujer – 98 p.\n"
            "Vuelta 1: *12 d., 2 juntos*; 7 veces (91).\n"
            "Vuelta 2: d.\n"
            "Vuelta 3: *11 d., 2 juntos*; 7 veces (84)."
        ),
        (70, 98),
        [[63, 63], [91, 91, 84]],
    ),
    (
        (
            "Talla pequeña: empezar con 80 p. Talla grande: empezar con 88 p.\n"
            "Talla grande: *9 p. d., 2 p. juntos d.*, 8 veces; 1 v. d. Quedan 80 p.\n"
            "Las dos tallas: *8 p. d., 2 p. juntos d.*, 8 veces; 1 v. d. Quedan 72 p.\n"
            "Repetir estas disminuciones en las 2 v. siguientes. Quedan 56 p."
        ),
        (80, 88),
        [[72, 72, 64, 56], [80, 80, 72, 72, 64, 56]],
    ),
    (
        (
            "Para S (M, L)\n"
            "V1: [2pjd, 5 (6, 7) d] 11 veces; 66 (77, 88) p.\n"
            "V2 (y demás v. pares): derecho.\n"
            "V3: [2pjd, 4 (5, 6) d] 11 veces; 55 (66, 77) p.\n"
            "Solo M y L, V5: [2pjd, – (4, 5) d] 11 veces; – (55, 66) p.\n"
            "Solo L, V7: [2pjd, 4 d] 11 veces; 55 p.\n"
            "Todas las tallas, después de la v. par: [2pjd, 3 d] 11 veces; 44 p."
        ),
        (77, 88, 99),
        [
            [66, 66, 55, 55, 44],
            [77, 77, 66, 66, 55, 55, 44],
            [88, 88, 77, 77, 66, 66, 55, 55, 44],
        ],
    ),
    (
        (
            "Montar a) 72, b) 80 p.\n"
            "Cont. a p. jersey der. sobre todos los p. a) 2, b) 3 v.\n"
            "Tejer 1 v. de p. juntos de 2 en 2 = a) 36, b) 40 p."
        ),
        (72, 80),
        [[72, 72, 36], [80, 80, 80, 40]],
    ),
    (
        (
            "Ronda 1: *2 puntos juntos, derecho hasta 2 puntos antes del marcador, deslizar 1, 1 punto "
            "derecho, pasar el deslizado por encima*, 4 veces. 80 (88) puntos.\n"
            "Ronda 2: derecho.\n"
            "Las rondas 1 y 2 se tejen 2 (3) veces en total. 72 puntos."
        ),
        (88, 96),
        [[80, 80, 72, 72], [88, 88, 80, 80, 72, 72]],
    ),
    # sizes with a colon between them
    (
        ("Tallas 36 : 40 : 44\n[10 : 11 : 12 d, 1 dism. simple] 7 veces (77 : 84 : 91 p.)\n1 vta. d."),
        (84, 91, 98),
        [[77, 77], [84, 84], [91, 91]],
    ),
    # rounds of some sizes by their letters, and where each size begins
    (
        (
            "Corona: 64 (72) (80) p. Talla P, empezar en la vta. 5; talla M, en la vta. 3; talla G, en la vta. 1.\n"
            "Vta. 1 (sólo G): *8 d, 2pjd* [72 p]. Vta. 2 (sólo G): d.\n"
            "Vta. 3 (M y G): *7 d, 2pjd* [64 p]. Vta. 4 (M y G): d.\n"
            "Vta. 5 (todas): *6 d, 2pjd* [56 p]."
        ),
        (64, 72, 80),
        [[56], [64, 64, 56], [72, 72, 64, 64, 56]],
    ),
    # two sizes by small and large
    (
        (
            "Vuelta de ajuste, pequeña: 16 derechos, 2 juntos, cuatro veces; quedan 68 puntos.\n"
            "Vuelta de ajuste, grande: 20 derechos, 2 juntos, cuatro veces; quedan 84 puntos."
        ),
        (72, 88),
        [[68], [84]],
    ),
    (
        (
            "Vuelta siguiente: 8 derechos y 2 juntos toda la vuelta en la pequeña; 10 derechos y 2 "
            "juntos en la grande: 72 puntos en la pequeña, 88 en la grande."
        ),
        (80, 96),
        [[72], [88]],
    ),
    # the first size and the second, and rounds from a number on
    (
        ("1ª talla: *8 d, 2 jd* (54 p.); 2ª talla: *10 d, 2 jd* (66 p.).\n1 v. d. en las dos tallas."),
        (60, 72),
        [[54, 54], [66, 66]],
    ),
    (
        ("Colocar 8 marcadores, cada 10/12 p.\n2 jd antes de cada M: 72/88 p."),
        (80, 96),
        [[72], [88]],
    ),
]


@pytest.mark.parametrize(("text", "count", "after"), TEXTS)
def test_short_spanish_text(text: str, count: int, after: list[int]) -> None:
    assert after_each_round(read(text, (count,), "es")) == after


@pytest.mark.parametrize(("text", "cast_on", "after"), SIZES)
def test_short_spanish_text_of_sizes(text: str, cast_on: tuple[int, ...], after: list[list[int]]) -> None:
    assert after_rounds_of_sizes(read(text, cast_on, "es")) == after
