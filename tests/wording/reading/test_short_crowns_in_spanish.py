"""Short texts in Spanish, in Spain's words and America's: crowns gone on with, decreases told in a sentence, sizes.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, told_crowns

TEXTS = told_crowns(
    """
    # gone on with
    36: 32 32 28 28 24 24 20
    Primera disminución: *7 derechos, 2 juntos*. 32 puntos.
    Teja 1 vuelta sin disminuir.
    Segunda disminución: *6 derechos, 2 juntos*. 28 puntos.
    Repita estas dos vueltas, cada vez con un derecho menos, hasta tener 20 puntos.

    72: 60 60 48 36 24 12
    V. 1: *4 p. der., 2 p. juntos der.*: 60 p.
    V. 2: p. der.
    V. 3: *3 p. der., 2 p. juntos der.*: 48 p.
    Continuar así, con menguados en cada v. y 1 p. menos cada vez, hasta tener 12 p.

    72: 60 60 48 48 36 36 24 24 12
    V. siguiente: *4 p. d., 2 p. juntos*; repetir (60 p.). Hacer 1 v. lisa.
    V. siguiente: *3 p. d., 2 p. juntos*; repetir (48 p.). Hacer 1 v. lisa.
    Prosiga al mismo ritmo hasta que no haya más que 12 p.

    70: 60 60 50 50 40 20
    Vuelta 9: *5 pts, 2 jtos* (60 pts).
    Vuelta 10: al derecho.
    Desde la vuelta 11 en adelante se disminuye vuelta por medio hasta los 40 pts.
    Vuelta final: 2 jtos (20 pts).

    80: 72 72 64 64 56 56 48 40
    8 marcadores cada 10 p.
    V. de dism.: *tejer hasta 2 p antes del marcador, 2jd* (72 p).
    V. de descanso: todo al derecho.
    Haz 3 veces en total las dos vueltas (56 p).
    Haz otras 2 veces la v. de dism., ya sin vueltas de descanso (40 p).

    80: 75 75 70 70 65 65
    Disminuir así: *2 p. juntos, d. hasta la marca*, 5 veces (75 p.); 1 vuelta d. Repetir todo 2 veces más (65
      p.).

    96: 92 92 92 88 88 88 84 84 84
    Vuelta 1: *tejer 22, 2jd*, 4 veces. 92 pts.
    Vueltas 2 y 3: sin disminuir.
    Hacer lo mismo (una vuelta con disminución y dos sin ella) 2 veces más. 84 pts.

    72: 60 60 48 36 24 12
    v. 1 *4 d, 2 j d* = 60
    v. 2 todo al d
    v. 3 *3 d, 2 j d* = 48
    v. 4-6 una disminución menos espaciada en todas las vueltas, hasta 12

    72: 64 64 64 56 56 48 48 40
    8 agrupaciones de 9 p.
    Dism. 8 p. en la siguiente v. (*7, 2 p. juntos*), otros 8 p. a las 3 v. (*6, 2 p. juntos*) y luego 8 p. en
      v. alternas hasta que queden 40 p.

    108: 90 90 90 72
    Gorro trenzado (9 motivos de 12 p.: 6 p. rev. y 6 p. trenza)
    Disminución 1.ª: en cada motivo, 2 p. rev. juntos, 2 p. rev., 2 p. rev. juntos, tejer la trenza (90 p.).
    Trabajar 2 v. según se ven.
    Disminución 2.ª: en cada motivo, (2 p. rev. juntos) dos veces, trenza (72 p.).

    112: 105 105 98 98 91 84 77 70
    Coloco 7 marcadores y en cada uno tejo juntos los dos puntos de antes. Así bajo a 105.
    Doy una vuelta lisa y repito, y así hasta tener 13 puntos por gajo (91).
    Ya no doy vueltas lisas: bajo en todas, de 91 a 84, de 84 a 77, y así hasta 70.

    # needles, markers and marked stitches
    96: 88 88 80 80 72 72
    Marca con un hilo los puntos 12, 36, 60 y 84.
    Vuelta de disminución: *der. hasta 1 p. antes del p. marcado, 1 dism. doble centrada*, repetir 3 veces más,
      acabar la vuelta al derecho (8 p. menos).
    Vuelta siguiente: al derecho.
    Repetir estas 2 vueltas 2 veces más: 72 p.

    104: 96 96 88
    4 agujas con 26 p. en cada una.
    Vta. 1: en cada ag., 1 surjete sencillo, 22 p. der., 2 p. juntos der. (96 p.).
    Vta. 2: p. der.
    Repetir estas disminuciones al comienzo y al final de cada ag., en vtas. alternas, hasta que queden 22 p.
      por ag. (88 p.).

    80: 72 72 64 64 56 56
    Poner 80 puntos en 4 agujas.
    En cada aguja se toman juntos los dos primeros puntos y los dos últimos, con lo que en cada vuelta se
      menguan 8 puntos. Las disminuciones se hacen en vueltas alternas, 3 veces.
    Se hace una vuelta sin menguar.

    76: 72
    76 puntos en 4 agujas.
    Disminuye 1 punto en cada aguja, tejiendo juntos los últimos 2. Quedan 72.

    66: 60
    Poner una señal cada 11 p.
    *Der. hasta 2 p. antes de la señal, 2 p. cogidos juntos*, en las 6 señales (60).

    90: 80
    Marca cada 9 p con un anillo (10 anillos).
    1ª vta: 2 p antes de cada anillo haz 1 disminución a la izquierda. Quedan 80 p.

    72: 64
    Marcar cada 9 p.
    En la v. sig., antes de cada marca: 1 surjete simple = 64 p.

    # work told in a sentence
    72: 96
    V. 1: *2 p. del derecho, en el p. siguiente hacer 2 p. (por delante y por detrás)* (96 p.).

    72: 81
    V. 1: *7 d., en el siguiente p. tejer 2 p (uno por delante y otro por detrás)* = 81 p.

    90: 80
    Vuelta 1: 8 puntos, dism. doble, 7 puntos; esto, 5 veces. (80 puntos)

    90: 80
    V1: *2 d, ddd, 12 d, 2jd* x 5 = 80 p

    96: 88
    Vuelta 1: *10 d., 1 disminución a la izquierda (ssk)*. Quedan 88 p.

    63: 49
    V. 1: *3 d, 3 j d, 3 d*, 7 veces (49 p)

    60: 48 48 36 24 12
    *3 p., 2 p. juntos* = 48 p. Tej. 1 v. y dism. 12 p. en cada una de las 3 v. siguientes (12 p.).

    80: 70 70 60 60 50 25
    *6 p. del derecho, 2 p. juntos*, repetir (70 p.). 1 vuelta sin menguar.
    Seguir menguando 10 p. cada dos vueltas, hasta quedar 50 p., y tejer una última vuelta de 2 p. juntos (25
      p.).

    25: 13
    vuelta 1.ª, 1 del der. y los demás, 2 juntos del der. (13 p.);

    50: 25
    vuelta 1.ª, 2 juntos del der. siempre (25 p.);

    # plain work
    72: 72 72 72 72 66
    Pasar a las ag. n.º 3 y seguir a p. jersey der. durante 4 v.
    V. siguiente: *10 d, 2jd* (66 p).

    72: 72 72 72 72 72 72 72 72 72 72 66
    Sigue a punto jersey, 2 vueltas en gris y 3 en azul, 2 veces en total.
    V. siguiente: *10 d, 2jd* (66 p).

    72: 72 72 72 66
    Teje el calado del gráfico durante 3 v.
    V. siguiente: *10 d, 2jd* (66 p).

    72: 72 72 72 66
    Trabajar las 3 v. del esquema, repitiendo 6 veces el dibujo de 12 p.
    V. siguiente: *10 d, 2jd* (66 p).

    81: 73 73
    Vuelta 1: 1 d, (8 p de arroz, 2jd) 8 veces: quedan 73.
    Vuelta 2: punto arroz sobre todos los puntos.

    80: 72
    1.ª v. *2 p. rev. juntos, 2 p. rev., 6 p. de trenza*, 8 veces = 72 p.

    72: 60
    V. 1: *4 d, 2jd*, por todo el contorno. Restan 60 p.
    Cierra con dos pasadas de hilo.

    40: 36 36 32 32 28 24 20 16 16
    Vta. 1: * 8 p. der., 2 p. j. der. *, repetir de * a * (36 p.). Repetir esta disminución, con 1 p. menos
      entre disminuciones cada vez, en las vtas. 3 y 5 (28 p.) y, sin vtas. intermedias, en las vtas. 6, 7 y 8
      (16 p.).
    Vta. 9: lisa.

    48: 44 44 40 40 36 32
    Empezá la vuelta: tejé 10 puntos al derecho y los 2 siguientes juntos al derecho, y repetí hasta terminar la
      vuelta. Te quedan 44 puntos.
    La vuelta siguiente va toda al derecho, sin disminuir.
    Ahora tejé 9 puntos y 2 juntos toda la vuelta (40 puntos) y otra vez una vuelta lisa.
    Seguí igual, con un punto menos antes de los 2 juntos y una vuelta lisa en el medio, hasta tejer la vuelta
      que te deja 36 puntos.
    De ahí en más disminuí en todas las vueltas, hasta que te queden 32 puntos.

    48: 42 42 36 36 30
    Se hace en cada una de las tres agujas: un punto del derecho, dos puntos juntos, se sigue del derecho hasta
      que falten tres puntos, dos puntos juntos y un punto del derecho. Quedan 42 puntos.
    Se hace una vuelta lisa. Repítense estas dos vueltas, terminando con vuelta de menguados cuando queden 10
      puntos en cada aguja, que son 30.

    40: 36 36 32 28 24
    Disminuya cada 2 vueltas: (8 d, 2 jd) 4 veces, 36; (7 d, 2 jd) 4 veces, 32.
    Disminuya después en cada vuelta, de 4 en 4 puntos, hasta 24.

    80: 72 72 64 64 56 56 48 48 40
    Teje hasta que falten 2 puntos para el marcador y júntalos. Haz lo mismo en los 8 marcadores. Te quedan 72
      puntos.
    Teje una vuelta sin disminuir.
    Haz estas dos vueltas 5 veces en total, hasta tener 40 puntos, y no tejas vuelta lisa después de la última.

    80: 72 72 64 64 56 56 48 48 40 40
    Teje hasta que falten 2 puntos para el marcador y júntalos. Haz lo mismo en los 8 marcadores. Te quedan 72
      puntos.
    Teje una vuelta sin disminuir.
    Haz estas dos vueltas 5 veces en total.

    96: 84 84 72 72
    Teje seis puntos, dos juntos, y repite toda la vuelta: se han ido doce y te quedan 84.
    Teje una vuelta sin más.
    Vuelve a disminuir igual, con un punto menos antes de juntar: quedan 72.
    Teje otra vuelta sin más.

    64: 56 56 48 48 40
    Se hacen seis puntos y un menguado, y así toda la vuelta, con lo que se pierden ocho puntos y quedan 56.
    Sigue una vuelta sin menguar.
    En la tercera vuelta se hacen cinco puntos y un menguado; quedan 48.
    Una vuelta sin menguar.
    En la quinta se hacen cuatro y un menguado; quedan 40.

    64: 56 56 48 48 40 40 32 32
    Para cerrar se hacen ocho menguados en la vuelta, esto es: seis puntos del derecho, dos juntos, y se repite.
    Síguese una vuelta lisa. Se repiten estas dos vueltas cuatro veces en todo, haciendo cada vez un punto menos
      entre los menguados. Quedan 32 puntos.

    90: 80 80 70 70
    Tejé 7 puntos y los 2 que siguen tejelos juntos; hacé eso hasta el final. Se te fueron 10 y quedan 80.
    Ahora una vuelta entera derecha.
    Después tejé 6 y 2 juntos, siempre igual, y quedan 70.
    Y otra derecha.

    90: 80 80 70 70 60 60 50 50 40
    Primera vuelta: 7 puntos derechos, 2 juntos, y así toda la vuelta (80).
    Segunda vuelta: toda derecha.
    Hacé estas dos vueltas cinco veces en total, con un punto menos cada vez, pero la última vuelta derecha no
      la tejas. Quedan 40 puntos.

    80: 72 72 64 64 56
    Poné un marcador cada 10 puntos. Juntá los 2 puntos de antes de cada marcador: se van 8 y te quedan 72.
    Una vuelta derecha en el medio.
    Disminuí otra vez: 64. Una vuelta derecha.
    Disminuí una última vez: 56.

    80: 70 70 60
    Vamos a juntar dos puntos cada ocho: teje seis, dos juntos, y repite hasta acabar. De 80 pasamos a 70.
    Tejemos una vuelta tranquila.
    Volvemos a disminuir, esta vez con cinco puntos entre disminuciones, y pasamos a 60.

    80: 72 72 64 64 56 56 48 48
    Teje ocho puntos y dos juntos hasta que termines la vuelta; te habrán quedado 72.
    Teje otra vuelta sin disminuir nada.
    Estas dos vueltas las repites tres veces más, y cada vez tejes un punto menos antes de los dos juntos. Al
      acabar tendrás 48 puntos.

    96: 84 84 72 72
    Se hacen seis puntos, se mengua uno, y se repite lo mismo en toda la vuelta, quedando 84.
    Se hace después una vuelta sin menguar, y en la siguiente se hacen cinco puntos entre menguado y menguado,
      quedando 72.
    Se termina con una vuelta lisa.

    48: 36 24 12
    Sin hacer más vueltas lisas, se hacen dos puntos y un menguado, y quedan 36; en la otra vuelta un punto y un
      menguado, y quedan 24; en la última todo menguados, y quedan doce.

    88: 80 80 72 72 64 64 56 56 48
    Tejé 9 puntos y agarrá 2 juntos hasta el final de la vuelta (80). Hacé una vuelta derecha.
    Andá disminuyendo así vuelta por medio, hasta que hayas disminuido cinco veces. Te tienen que quedar 48.

    104: 96 96 96 96 88 88 88 88 80 80 80 80 72 72 64 64 56 56 48 48 40 32 24 16 8
    Cierre en 8 gajos de 13 p.
    Se mengua 1 p. al final de cada gajo (2 p. juntos al derecho):
    – en la 1.ª, 5.ª, 9.ª y 13.ª v. (72 p.),
    – en la 15.ª, 17.ª, 19.ª y 21.ª v. (40 p.),
    – en la 22.ª, 23.ª, 24.ª y 25.ª v. (8 p.).
    Las demás v. se tejen sin menguados.
    Se pasa una hebra por los últimos p., se frunce y se remata con unas puntadas.

    # the last rounds by their stitches between the decreases
    56: 48 48 40 32 24 16
    *5 d, 2pjd* x 8 (48 p.). 1 vta. d.
    Dism. igual en las 4 vtas. sig., con 4, 3, 2 y 1 d antes de los 2 jd (16 p.).

    56: 48 48 40 32 24 16
    *5 d, 2pjd* x 8 (48 p.). 1 vta. d.
    En las 4 vtas. siguientes disminuir siempre, con 4, 3, 2 y 1 p. entre dism. (16 p.).

    56: 48 48 40 32 24 16
    V. 1: *5 d, 2pjd* x 8 (48 p.). V. 2: d.
    V. 3 a 6: igual, pero con 4, 3, 2 y 1 p. der. antes de los 2 p. j. (16 p.).

    # a stitch and two together before the marker are no such list
    88: 80
    Colocar 8 marcadores, 1 cada 11 p.
    *tejer al derecho hasta 3 p antes del marcador, 2 p jun y 1 d antes del marcador* toda la vta (80 p.).

    # short forms: the next round behind a count, times by their letter, the last two rounds
    72: 64 64
    *7 d, 2pjd* x 8. Vta. sig.: d.

    72: 64 64 56 56 48 48
    (7 d., 2 p.j.) 8 v. 64 p. 1 vta. d.
    Rep. las 2 últ. vtas. 2 veces más, con 1 d menos entre dism. cada vez → 48 p.

    80: 72 72 64 64
    R1: *8 der., 2 jd* x8 — 72. R2: der. R3: *7 der., 2 jd* x8 — 64. R4: der.

    72: 64 64 56 56
    V. 1: *7 d, 2pjd*. V. 2 (y pares hasta la 4): d.
    V. 3: *6 d, 2pjd* (56 p.).

    # an increase in the next stitch
    16: 24
    *1 d, aum. en el p. sig.*, rep. hasta el final (24 p.).

    # so many rounds of both kinds
    88: 80 80 72 72 64 64
    V. 1: *9 d, 2 jd* (80 p). V. 2: d.
    Rep. V. 1 y V. 2, con 1 d menos cada vez, hasta completar 3 vtas. con dism. y 3 sin ellas (64 p).

    80: 72 72 64 64 56 56
    *8 d, 2pjd* x 8 (72 p.). 1 vta. d.
    Seguir alternando 1 vta. con dism. (1 p. menos cada vez) y 1 vta. d. hasta que la vta. d. se haga sobre 56
      p.

    # a part of a crown by any of its names
    84: 77 77 70 70
    Dividimos los 84 puntos entre 7: tocan 12 por gajo.
    En cada gajo tejemos juntos los dos últimos puntos; la vuelta que viene detrás es de descanso.
    Lo hacemos dos veces en total (70 p).

    80: 72 72 72 64 56 48 40
    1.ª: 8 derechos, 2 juntos; se repite 8 veces: 72 puntos.
    2.ª y 3.ª: al derecho.
    4.ª: 7 derechos, 2 juntos: 64 puntos.
    5.ª a 7.ª: una disminución en cada porción, en todas las vueltas: 56, 48 y 40 puntos.

    112: 104 104 104 104 96 96 88 88 80
    Colocar un marcador cada 14 p.
    *Tejer al derecho hasta 2 p. antes del marcador, 2 p. juntos al derecho*. Quedan 104 p.
    Repetir estas disminuciones 1 vez más cada 4ª vuelta: 96 p.
    Después, repetirlas 2 veces más cada 2ª vuelta: 80 p.

    # until a round of the pattern and the one behind it
    56: 48 48 40 40 32 32
    V. 1: *5 d, 2pjd* 8 veces (48 p.). V. 2: d.
    Rep. V. 1 y 2 con 1 d menos antes de la dism. hasta haber hecho la V. 1 con *3 d, 2pjd* 8 veces y la V. 2
      (32 p.)

    # the counts of two rounds alike, a table, a short list of counts behind their stitches
    16: 8 4
    En las 2 vueltas siguientes, ssk hasta terminar: 8 pts. y luego 4 pts.

    70: 63 63 56 49 42
    v1 | 8 d, 2jd | x7 | 63 p
    v2 | d
    v3-5 | 1 d menos cada vta. | x7 | 42 p

    56: 49 42 35 28
    Primera vuelta: *6 d, 2 jd* (49 p).
    Desde aquí cada vuelta lleva un punto menos delante del 2 jd, o sea: con 5 puntos (42 p), con 4 (35 p) y con
      3 (28 p).

    # old handbooks: plain stitches, two needles' ends, as many rounds of both kinds
    28: 26 26 24 24 22 22 20 20
    Vuelta 1.ª — Doce puntos lisos, dos juntos; así toda la vuelta. Quedan 26 puntos.
    Vuelta 2.ª — Lisa.
    Vuelta 3.ª — Once puntos lisos, dos juntos. Quedan 24.
    Vuelta 4.ª — Lisa.
    Se continúa de igual manera, haciendo en cada vuelta de menguados un punto menos antes de coger dos juntos,
      hasta haber hecho en total cuatro vueltas menguadas y cuatro lisas. Quedan 20 puntos.

    80: 72
    Con los 80 puntos en cuatro agujas, 20 en cada una:
    1.ª vuelta de menguados: en cada una de las cuatro agujas se toman 2 puntos juntos al empezar y otros 2 al
      terminar. Quedan 72.

    80: 72
    Hay 80 puntos en 4 agujas, 20 en cada aguja.
    En cada aguja, 17 puntos lisos; se pasa un punto sin hacer, se toman dos juntos y se monta sobre ellos el
      que se pasó. Quedan así 18 puntos en cada aguja.

    # rounds without decreases by other names
    64: 56 56 48 48 48
    Teje 6 puntos y 2 juntos (56 p). Una sola vuelta tranquila.
    Teje 5 puntos y 2 juntos (48 p). Otras dos vueltas de descanso.

    # each end of a needle, a group, and the same again down to so many
    80: 72 72 64 64 56
    Hay 80 puntos en cuatro agujas.
    En cada aguja se menguan 2 puntos: uno al principio y otro al final (72 p). Luego una vuelta lisa. Se repite
      lo mismo hasta que queden 14 puntos en cada aguja.

    80: 72 72 64 64 56 56 48 48
    Repartimos los 80 puntos en 8 grupos de 10.
    En cada grupo tejemos juntos los dos últimos puntos (72 p). La siguiente vuelta la hacemos sin disminuir.
    Seguimos así hasta haber hecho 4 vueltas con disminuciones y 4 sin ellas (48 p).

    80: 72 72 72 72 64 64 56 56 48
    Vta de dism: *8 d, 2pjd*, rep 8 v (72 p). Tejer 3 vtas sin dism. Rep la vta de dism cada 4 vtas 1 v más, con
      1 d menos entre dism (64 p), luego cada 2 vtas 2 v (48 p).

    # increases between so many, the same to the end, the same round again
    60: 80 80 80
    Se crece un punto después de cada tres, y quedan así 80 puntos.
    Se tejen 2 vueltas a punto liso.

    80: 72 72 64
    Vuelta 1: 8 derechos y 2 juntos. Repite lo mismo hasta terminar la vuelta; lo harás 8 veces. Te quedan 72.
    Vuelta 2: d.
    Vuelta 3: igual que la primera, pero con 7 puntos antes de cada disminución. Te quedan 64.

    80: 72 72 64 64 56 56 48 40 32
    Colocar un marcador cada 20 p.
    Vta. de dism.: *2 jd, d hasta 2 p antes del M, ssk* (72 p).
    Hazla cada dos vueltas 3 veces más (48 p) y en todas las vueltas 2 veces (32 p).

    80: 72
    Colocar un marcador cada 20 p.
    Antes de cada marcador haréis 2 juntos y 1 derecho; después de cada marcador, 1 derecho y una disminución a
      la izquierda (72 p).

    # plain rounds told beside the decreases, and a round worked now and now not
    48: 42 42 36 36 30 30 24
    V. 1: *6 d, 2 jd* (42 p).
    V. 2: d.
    Continuar así, con una vuelta lisa después de cada vuelta de menguados, hasta que queden 24 p.

    48: 42 42 36 36 30 30 24
    V. 1: *6 d, 2 jd* (42 p).
    V. 2: d.
    Hacer lo mismo, vuelta sí, vuelta no, hasta que queden 24 p.

    112: 104 104 96 96 88 80 72
    Pongo un marcador cada 14 puntos (8 gajos).
    Vuelta con disminución: junto los 2 últimos puntos de cada gajo (104 puntos).
    Vuelta sin disminución.
    Voy alternando las dos hasta que me quedan 88 puntos.
    Luego hago solo vueltas con disminución hasta tener 72 y cierro.

    # so many rounds that all decrease
    48: 42 42 36 30 24
    V. 1: *6 d, 2 jd* (42 p).
    V. 2: d.
    En las 3 vtas. sig. dism. igual (24 p.).

    48: 42 42 36 30 24
    V. 1: *6 d, 2 jd* (42 p).
    V. 2: d.
    Luego 3 vtas. con dism. en cada una (24 p.).

    48: 42 42 36 30 24
    V. 1: *6 d, 2 jd* (42 p).
    V. 2: d.
    Y tres vueltas más con 5, 4 y 3 puntos antes de los dos juntos (24 p.).

    # an increase that uses a stitch, by the count
    16: 24
    * 1 p. der., 1 aum. * (24 p.)

    16: 32
    * 1 p. der., 1 aum. * (32 p.)

    # ends of needles and marked places by other names
    80: 72
    80 p. en 4 agujas, 20 p. en cada una.
    Se mengua un punto en cada extremo de las cuatro agujas. Quedan 72 p.

    80: 72 72
    Colocar un marcador cada 10 p. (8 marcadores).
    Vta. 1: una disminución junto a cada marcador. 72 p.
    Vta. 2: d.

    80: 72 72
    Colocar un marcador cada 10 p. (8 marcadores).
    Vta. 1: cada vez que falten 2 p. para un marcador, tejerlos juntos. 72 p.
    Vta. 2: d.

    84: 78 78 72 72 66
    Se teje la corona en 6 gajos: cada gajo empieza con 14 p.
    En las vueltas impares se tejen juntos los 2 primeros p. de cada gajo; las pares, al derecho.
    Se sigue hasta que quedan 11 p. en cada gajo (66 p.).

    56: 48 48 40 32 24 16 8
    Vta. 1: *5 d, 2 jd* (48 p). Vta. 2: d.
    Vta. 3 en adelante: dism. en todas las vtas. hasta 8 p.

    # in the first round so many fewer are no decrease round of that number
    88: 80
    En la primera vuelta disminuir 8 puntos repartidos: 80 puntos.

    8: 16 24
    Con 8 puntos, teje cada punto por delante y por detrás (16).
    *1 derecho, en el siguiente por delante y por detrás* (24).

    # every round by its short form, sections that end in a decrease, two joined without a word for it
    80: 72 72 64 64 56 48 40 32
    *8 d, 2 jd* 8 v. = 72 p. 1 v. d.
    Dism. así c/2 v. hasta 56 p. y en c/v. hasta 32 p.

    84: 77 77 70 70 63 56 49 42
    La corona se divide en siete partes de 12 puntos. Al final de cada parte se hace una disminución (2 puntos
      juntos): 77 puntos. La vuelta siguiente no lleva disminuciones. Se alternan estas dos vueltas hasta que
      queden 63 puntos, y luego se disminuye en todas hasta 42.

    80: 72 72 64
    Queremos 8 disminuciones en cada vuelta: tejemos 8 puntos, juntamos 2 y seguimos así (72).
    Descansamos una vuelta.
    Tejemos 7 puntos, juntamos 2 y seguimos así (64).

    # a knit round without a colon, and the same with another number
    80: 72 72 64
    V1 [8 d – 2 jd] x 8 → 72
    V2 d
    V3 [7 d – 2 jd] x 8 → 64

    72: 64 64 56 56
    Vta. 1: *7 d, 2 jd* (64 p).
    Vta. 2: sin dism.
    Vta. 3: igual, con 6 d (56 p).
    Vuelta derecha.

    # `R1` is a round where it is worked again, and `R` behind `siguiente`
    96: 88 88 80 72 64 56 48
    Coloca un marcador cada 12 p.
    R1: *teje hasta quedar 2 p antes del marc., 2pjd*. (88 p)
    R2: todo del derecho.
    Ahora teje solo R1, en cada ronda, tres veces. (64 p)
    Siguiente R: *6 d, 2pjd* (56 p)
    Última R: *5 d, 2pjd* (48 p)

    # a marker is placed before some stitches; none is cast on
    90: 90 85
    V1: *pon marcador, teje 18 p* 5 veces
    V2: *2pjd, teje al derecho hasta el marcador* 5 veces (85 p)

    # ordinals of plain rounds, which are no stitches worked together
    110: 100 100 100 100 90 90 90
    1. *9 der., 2 jun.*, 100 p.
    2. - 4. der.
    5. *8 der., 2 jun.*, 90 p.
    6. y 7. der.

    # a plain round between
    96: 88 88 80 80 72 72 64
    Ronda 1: *10 der, 2pj der* (88 p)
    Ronda 2: teje toda la ronda.
    Ronda 3: *9 der, 2pj der* (80 p)
    Ronda 4: teje toda la ronda.
    Continúe disminuyendo de esta manera, con un pto menos entre disminuciones y una ronda lisa entre medio,
      hasta que queden 64 pts.

    # from a round on, with a bracket behind the number
    84: 78 78 72 72 66 60 54 48 42 36 30 24 18 12 6
    vta 1) *12 der, 2pj* (78)
    vta 2) der
    vta 3) *11 der, 2pj* (72)
    vta 4) der
    vta 5 en adelante) disminuir en todas las vueltas, siempre 6 puntos, hasta que queden 12
    última vta) todo 2pj (6)

    # a last stitch behind the decrease of each needle
    100: 92
    Hay 25 p en cada aguja, 100 p.
    En cada aguja, tejer 1 p, 1 surjete simple, tejer hasta los 3 últimos p, 2 p juntos, 1 p. (92 p)

    # a last stitch that is a purl stitch
    96: 72 48
    Ronda 1: *2 p jun, 2 p rev*. (72 p)
    Ronda 2: *2 p jun, 1 p rev* (48 p)

    # the stitch passed over in short
    90: 78
    Vta 1: *12 d, deslizar 1, 2pjd, ppde (pasar p deslizado por encima); rep desde * (78 p)
    """
)

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
