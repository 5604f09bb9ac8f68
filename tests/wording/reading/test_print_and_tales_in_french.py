"""What leaflets print short in French, and what letters tell at length."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes

EVERY_OTHER = "Tour 1 : *8 m., 2 m. ens.*, 6 fois = 54 m.\nTour 2 : sans dim.\n"
"""A round that shapes sixty stitches, and a plain one."""

PRINT = [
    # rounds of letters repeated as a pair, then the first of them by itself
    (
        102,
        (
            "6 segments de 17 m séparés par un marqueur.\n"
            "Tour A : *tric jusqu'à 2 m avant le marqueur, 2 m ens*, 6 fois\nTour B : tric\n"
            "Faire A et B 3 fois (84 m), puis A seulement jusqu'à ce qu'il reste 72 m."
        ),
        [96, 96, 90, 90, 84, 84, 78, 72],
    ),
    # both ends of every section
    (
        76,
        (
            "4 sections de 19 m.\n"
            "Tour de dim. : au début de chaque section 1 GGT, à la fin de chaque section 2 m ens. 8 dim."
        ),
        [68],
    ),
    # another word for a round, which is none where stitches are joined
    (84, "Joindre en rond.\nRond 1 : *5 m end, 2 m ens*\nRonds 2 à 4 : end.", [72, 72, 72, 72]),
    (24, "Ronds 9 et 10 : *2 mailles ensemble* – 12 mailles, puis 6 mailles", [12, 6]),
    (
        84,
        "Tour 1 : *5 m end, 2 m ens*\nTour 2 : tricoter.\nTour 3 : tricoter 4 m, 2 m ens, rép.",
        [72, 72, 60],
    ),
    # the number of the line before the number of the round, and a round as the one before
    (
        72,
        (
            "3. Tour 25 : *2 m. end., 2 m. ens. à l'env.* (54 m.)\n4. Tour 26 : *2 m. end., 1 m. env.*\n"
            "5. Tours 27 à 28 : end.\n6. Tour 29 : 2 m. ens. tout le tour (27 m.)"
        ),
        [54, 54, 54, 54, 27],
    ),
    (32, "T9. 2 ens, rép. jusqu'à la fin (16)\nT10. idem (8)", [16, 8]),
    (70, "3e tour 8 m, 2 m ens.", [63]),
    # plain rounds between, not behind the last
    (
        72,
        (
            "Tour de dim. 1 : *7 m, 2 m ens* 8 fois, 64 m.\n1 tour uni entre chaque tour de dim.\n"
            "Tours de dim. 2 à 4 : chaque fois 1 m de moins avant la dim., 40 m."
        ),
        [64, 64, 56, 56, 48, 48, 40],
    ),
    # marked stitches
    (
        76,
        "Marquer 4 m : la 1re, la 20e, la 39e et la 58e.\nDim. 1 m avant chaque m marquée tous les 2 tours 3 fois.",
        [72, 72, 68, 68, 64],
    ),
    (76, "Marquer 4 m.\nDim. 1 m après chacune des 4 m marquées.", [72]),
    (76, "Marquer 4 m.\nDim. 1 m avant et après chaque m marquée.", [68]),
    (90, "Tour 1 : *6 m end, 1 double dim centrée, 6 m end* 6 fois (78 m).", [78]),
    # two rounds of one number each, whose work is given once
    (40, "Tr de dim. 4 et 5 : 2 m. ens. end. tt le tr (20 m., puis 10 m.). Serrer.", [20, 10]),
    (40, "Rgs de dim. 4 et 5 : 2 m. ens. sur tout le rg (20 m., puis 10 m.).", [20, 10]),
    (40, "4e et 5e trs de dim. : *2 m. ens.* (20 m., puis 10 m.).", [20, 10]),
    # the stitches of the rib that is worked on, which is no round
    (
        80,
        "On a 80 m. en côtes 3/1 (* 3 m. end., 1 m. env. *).\nTr 1 : * 1 surjet double, 1 m. env. * = 40 m.",
        [40],
    ),
    # what garter stitch is
    (60, "6 tours au point mousse, c'est-à-dire en alternant 1 tour endroit et 1 tour envers.", [60] * 6),
    (60, "Tricoter 6 tours au point mousse, soit 1 tour endroit, 1 tour envers alternativement.", [60] * 6),
    (60, "Point mousse : 6 tours, en alternant 1 tour env. et 1 tour end.", [60] * 6),
    # rhythms one behind another, with the counts between them
    (
        60,
        EVERY_OTHER
        + "Dim. encore 1 tour sur 3 1 fois = 48 m., tous les 2 tours 2 fois = 36 m., puis à chaque tour 2 fois.",
        [54, 54, 54, 48, 48, 42, 42, 36, 30, 24],
    ),
    (
        60,
        EVERY_OTHER + "Dim. ainsi 2 fois tous les 2 tours (42 m.) et 2 fois à chaque tour (30 m.).",
        [54, 54, 48, 48, 42, 36, 30],
    ),
    # a decrease round that follows itself
    (
        60,
        EVERY_OTHER + "Cont. ainsi jusqu'à 48 m. Ensuite 1 rang de dim. après l'autre jusqu'à 30 m.",
        [54, 54, 48, 42, 36, 30],
    ),
    (
        60,
        EVERY_OTHER + "Cont. ainsi jusqu'à 48 m., puis diminuez à tous les tours jusqu'à 30 m.",
        [54, 54, 48, 42, 36, 30],
    ),
    (
        60,
        EVERY_OTHER + "Cont. ainsi jusqu'à 48 m. ; puis dim. à chaque tour et s'arrêter à 30 m.",
        [54, 54, 48, 42, 36, 30],
    ),
    # times in place of rounds
    (
        70,
        (
            "À 11 cm tot. dim. ts les 2 rgs :\n1re fois : 8 m. end., 2 m. ens. = 63 m.\n"
            "2e fois : 7 m. end., 2 m. ens. = 56 m.\nEt ainsi jusqu'à la 4e fois = 42 m."
        ),
        [63, 56, 49, 42],
    ),
    # a stitch of so many, in a round for each number
    (
        60,
        (
            "1 tour en faisant 1 dim. ttes les 10 m. (= 8 m. end., 2 m. ens.), il reste 54 m. ;\n"
            "3 tours en faisant successivement 1 dim. ttes les 9, 8 et 7 m., il reste 36 m."
        ),
        [54, 48, 42, 36],
    ),
    # letters of the legend
    (
        60,
        (
            "Côtes *2e, 1v* pendant 2 tours (e = endroit, v = envers).\nTr 3 : *2ens, 4e* → 50 m\n"
            "Tr 4 et tous les pairs : e"
        ),
        [60, 60, 50, 50],
    ),
    # rounds numbered with brackets in a row
    (
        60,
        "Rgs de dim. : 1) *8 m. end., 2 m. ens.* > 54 m. 2) jers. 3) *7 m. end., 2 m. ens.* > 48 m. 4) jers.",
        [54, 54, 48, 48],
    ),
    (60, "Côtes 1 m. end., 1 m. env. s/ 3 rgs, puis jers. s/ 2 rgs.", [60] * 5),
    # shaping spread evenly, shortened twice
    (
        60,
        "Dim. 6 m. rég. rép. au 1er tr, puis ts les 2 trs 2 fois et à chq. tr jusqu'à 30 m.",
        [54, 54, 48, 48, 42, 36, 30],
    ),
    # both ends of every needle
    (
        92,
        (
            "Sur 4 aiguilles de 23 m. : en début d'aig. 1 m. end., 1 surjet simple, en fin d'aig. 2 m. ens., 1 m. end. "
            "(84 m.). Alterner 1 tr ainsi et 1 tr end. jusqu'à 68 m. puis dim. à ts les trs jusqu'à 44 m."
        ),
        [84, 84, 76, 76, 68, 60, 52, 44],
    ),
    (
        60,
        (
            EVERY_OTHER
            + "Répéter les tours 1 et 2 en réduisant d'1 m. le nombre de m. avant les 2 m. ens., jusqu'à "
            "48 m. Puis ne plus faire que les tours diminués, jusqu'à 36 m."
        ),
        [54, 54, 48, 48, 42, 36],
    ),
    (90, "Tr 1 (dim.) : *8 m., 1 s.s.* 9 fs - 81 m.\nTr 2 (et ts les trs pairs) : m. end.", [81, 81]),
    # plain stitches by their number alone
    (81, "T1 : *7, 2 ens* 72\nT2-3 : unis\nT4 : (6, 2 ens) 63", [72, 72, 72, 63]),
    # one round alone, and the plain round behind every decrease
    (
        60,
        (
            "Placer 6 anneaux, espacés de 10 m.\n"
            "Tour 1 : *tric. à l'end. jusqu'à 2 m. avant l'anneau, 2 m. ens., déplacer l'anneau* 6 fois.\n"
            "Tour 2 : end.\nReprendre 1 fois encore les tours 1 et 2 (48 m.), puis 3 fois le tour 1 seul (30 m.)."
        ),
        [54, 54, 48, 48, 42, 36, 30],
    ),
    (
        72,
        (
            "Tour de dim. n° 1 : *7 m, 2 m ens* x 8. Reste 64 m.\nTric. 2 tours.\n"
            "Tour de dim. n° 2 : *6 m, 2 m ens* x 8. Reste 56 m.\n"
            "Tric. 1 tour entre chaque tour de dim. à partir d'ici.\n"
            "Tours de dim. n° 3 à 5 : chaque fois 1 m de moins avant la dim. Reste 32 m."
        ),
        [64, 64, 64, 56, 56, 48, 48, 40, 40, 32],
    ),
    (
        60,
        EVERY_OTHER + "Cont. ts les 2 trs jusqu'à 42 m. puis ts les trs jusqu'à 24 m.",
        [54, 54, 48, 48, 42, 36, 30, 24],
    ),
    # both sides of every marker
    (
        76,
        (
            "Quatre marqueurs (19 m. entre chaque). De part et d'autre de chaque marqueur, une diminution : 2 m. ens. "
            "avant, 1 surjet simple après : 68 m. Recommencer tous les 2 tours jusqu'à 52 m."
        ),
        [68, 68, 60, 60, 52],
    ),
    # a decrease every so many stitches, and the round that is as the last
    (
        99,
        (
            "Diminuer : ttes les 9 m. (7 m. end., 2 m. ens.) - 88 m.\n1 tr.\n"
            "Ttes les 8 m. (6 m. end., 2 m. ens.) - 77 m.\nTtes les 7 m. - 66 m."
        ),
        [88, 88, 77, 66],
    ),
    (40, "Tr 1 : *1 GGT* (20 m.)\nTr 2 : id. (10 m.)", [20, 10]),
    # the decrease round alone, which goes on with a stitch fewer
    (
        60,
        EVERY_OTHER + "Puis rép. seulement le tour 1, tjs avec 1 m. de moins, jusqu'à 36 m.",
        [54, 54, 48, 42, 36],
    ),
    # rounds parted by dashes, stitches without a comma, and the short name of stocking stitch
    (
        72,
        (
            "Dim. - Rg 1 : [10 m. end., 2 m. ens.] 6 fois. 66 m. - Rg 2 : end. - Rg 3 : [9 m. end., 2 m. ens.] 6 fois. "
            "60 m. - Rg 4 : end."
        ),
        [66, 66, 60, 60],
    ),
    (66, "1er tr dim. : ( 9 m. 2 ens. ) x 6 = 60\n1 tr\n2e tr dim. : ( 8 m. 2 ens. ) x 6 = 54", [60, 60, 54]),
    (100, "Tr 1 : 8 m. j., 2 m. ens., tt le tr (90)\nTr 2 : j.", [90, 90]),
]

TALES = [
    # rounds of two kinds in turn, the plain one before the other
    (
        92,
        (
            "92 mailles, soit 23 mailles sur chacune des quatre aiguilles.\n"
            "Au premier tour des diminutions, on prend 2 mailles ensemble au commencement et à la fin de chaque "
            "aiguille ; il reste 84 mailles.\n"
            "On fait 2 tours sans diminuer, puis un tour de diminutions ; il reste 76 mailles.\n"
            "On alterne encore deux fois 1 tour uni et 1 tour de diminutions ; il reste 60 mailles."
        ),
        [84, 84, 84, 76, 76, 68, 68, 60],
    ),
    # plain rounds given up in a sentence
    (
        60,
        (
            EVERY_OTHER + "Continue ainsi un tour sur deux jusqu'à 42 mailles.\n"
            "À partir de là, oublie les tours sans diminutions : tu diminues à chaque tour. Quand ça devient trop "
            "serré, passe aux aiguilles double pointe.\nArrête-toi quand il reste 30 mailles."
        ),
        [54, 54, 48, 48, 42, 36, 30],
    ),
    # what the needle holds, and the share of the stitches that goes
    (
        60,
        (
            "Répartir les 60 m. sur 3 aiguilles, 20 m. sur chacune.\n"
            "Sur chaque aiguille : tricoter jusqu'aux 2 dernières mailles, "
            "2 mailles ensemble.\nRecommencez ce tour encore 4 fois : chaque aiguille ne porte plus que 15 mailles, "
            "soit 45 mailles en tout."
        ),
        [57, 54, 51, 48, 45],
    ),
    (
        60,
        (
            "On ne fait donc pas de côtes ! Une maille sur six disparaît, c'est-à-dire que vous tricotez 4 mailles, "
            "puis 2 ensemble : 50 mailles."
        ),
        [50],
    ),
    # even rounds in other words, and rounds that go on to a number in words
    (
        108,
        (
            "Premier tour : *15 mailles endroit, 1 diminution double*, six fois. Le tour compte 96 mailles.\n"
            "Deuxième tour, et tous les tours de rang pair : à l'endroit.\n"
            "Troisième tour : *13 mailles endroit, 1 diminution double*, six fois. Le tour compte 84 mailles.\n"
            "Et ainsi de suite, en tricotant chaque fois 2 mailles de moins, jusqu'à ce que le tour ne compte plus que "
            "60 mailles."
        ),
        [96, 96, 84, 84, 72, 72, 60],
    ),
    (
        132,
        (
            "Au premier tour, on diminue après chaque 9e maille, en tricotant ensemble la 10e et la 11e ; il reste 120 "
            "mailles.\nAu deuxième tour, comme à tous les tours pairs, on ne diminue pas.\n"
            "Au troisième tour, on tricote ensemble la 9e et la 10e maille de chaque côté ; il reste 108 mailles.\n"
            "On va ainsi jusqu'au dix-septième tour, après lequel il ne reste que 24 mailles."
        ),
        [120, 120, 108, 108, 96, 96, 84, 84, 72, 72, 60, 60, 48, 48, 36, 36, 24],
    ),
    (96, "Prendre ensemble la 7e et la 8e maille, et ainsi de suite tout le tour (84 mailles).", [84]),
    # two rounds of the same, told as how often
    (
        36,
        "Enfin, deux tours de suite, on prend toutes les mailles deux par deux, jusqu'à n'en avoir plus que 9.",
        [18, 9],
    ),
    (36, "Deux fois de suite, un tour de 2 mailles ensemble : nous voilà à 18, puis à 9 mailles.", [18, 9]),
    (36, "Faire deux tours de 2 mailles ensemble (18 puis 9 mailles).", [18, 9]),
    (
        36,
        "Encore deux tours en jersey, puis un tour de 2 mailles ensemble : 18 mailles, et un dernier pareil : 9 m.",
        [36, 36, 18, 9],
    ),
    # stitches between two markers, and the round behind which it ends
    (
        90,
        (
            "Placer 9 marqueurs, un toutes les 10 mailles.\n"
            "Tour 1 : jusqu'à 2 mailles du marqueur, à l'endroit ; les 2 mailles ensemble à l'endroit ; passer le "
            "marqueur ; 9 fois. Cela fait 81 mailles.\nTour 2 : à l'endroit.\n"
            "Reprenez ces deux tours jusqu'à ce qu'il n'y ait que 7 mailles entre deux marqueurs, donc 63 mailles, et "
            "arrêtez-vous après un tour 2."
        ),
        [81, 81, 72, 72, 63, 63],
    ),
    # stitches that are added so that there are so many
    (86, "J'ai ajouté 4 mailles, bien réparties, pour en avoir 90.\n*1 m., 2 m. ens.* : 60 m.", [90, 60]),
    (
        56,
        "Tour 1 : tricoter 2 fois chaque 7e maille (6 mailles endroit, 1 maille tricotée devant et derrière) = 64 m.",
        [64],
    ),
    (
        96,
        (
            "1. Augmentez en tricotant deux fois une maille sur trois : *2 mailles endroit, 1 maille tricotée 2 fois "
            "(une fois devant, une fois derrière)*. Cela donne 128 mailles.\n"
            "2. Deux tours à l'endroit, sans augmenter ni diminuer.\n"
            "3. Diminuez huit mailles : *14 mailles, 2 ensemble*. Cela donne 120 mailles."
        ),
        [128, 128, 128, 120],
    ),
    # a double decrease at each stitch that is marked
    (
        96,
        (
            "Marquer la dernière maille de chaque groupe de 16 mailles.\n"
            "Tricotez jusqu'à 1 maille avant la maille marquée, glissez ensemble cette maille et la maille marquée, "
            "tricotez la maille suivante et rabattez les 2 mailles glissées par-dessus. Faites cela à chaque maille "
            "marquée : il vous restera 84 mailles.\n"
            "Tricotez 3 tours à l'endroit, puis un second tour de diminutions : il vous restera 72 mailles."
        ),
        [84, 84, 84, 84, 72],
    ),
    # a teacher who asks how many there are
    (
        48,
        (
            "Nous comptons 6 mailles et nous tricotons les deux suivantes ensemble. Combien reste-t-il de mailles à la "
            "fin du tour ? Réponse : 42.\nNous tricotons un tour simple.\n"
            "Nous comptons 5 mailles et tricotons les deux suivantes ensemble. Réponse : 36.\n"
            "Nous tricotons un tour simple, comme le premier."
        ),
        [42, 42, 36, 36],
    ),
    # what is worked at each marker, on every round
    (
        78,
        (
            "6 sections de 13 mailles.\nEnsuite, à chaque tour, tricotez un surjet simple juste après chaque marqueur, "
            "et tout le reste à l'endroit.\nOn s'arrête quand il y a 60 mailles."
        ),
        [72, 66, 60],
    ),
    # sides of a crown, and decreases that stand above each other
    (
        72,
        (
            "On répartit les 72 mailles en six côtés de 12 mailles chacun.\n"
            "Au 1er tour, on tricote dix mailles à l'endroit, on prend les 2 suivantes ensemble, et l'on continue de "
            "même pour les cinq autres côtés : 66 mailles.\nLe 2e tour se fait uni.\n"
            "On reprend ces deux tours deux fois encore, en ayant soin de placer chaque diminution au-dessus de la "
            "précédente ; il y a alors neuf mailles à chaque côté, soit 54 mailles."
        ),
        [66, 66, 60, 60, 54, 54],
    ),
    (
        76,
        (
            "4 sections.\nDans chaque quartier, vous ferez une diminution à droite et une diminution à gauche : "
            "1 maille endroit, 1 surjet simple, 13 mailles endroit, 2 mailles ensemble à l'endroit, 1 maille endroit. "
            "Vous comptez maintenant 68 mailles.\nAu tour qui suit immédiatement, vous ferez dans chaque quartier "
            "1 surjet simple, 13 mailles endroit, 2 mailles ensemble : il reste 60 mailles."
        ),
        [68, 60],
    ),
    # the counts of two rounds, told by which they are behind
    (
        60,
        "Tricotez les mailles deux par deux pendant deux tours : 30 mailles après le premier, 15 après le second.",
        [30, 15],
    ),
    # dictated with quotation marks
    (
        105,
        (
            "« Tu tricotes deux mailles ensemble, puis 13 mailles ; et tu recommences six fois. » (98 mailles)\n"
            "« Le tour d'après, tu ne diminues pas. »\n« Puis deux mailles ensemble et 12 mailles. » (91 mailles) "
            "« Et encore un tour où tu ne diminues pas. »"
        ),
        [98, 98, 91, 91],
    ),
    # so many decreases a round, and the plain rounds before the next
    (
        70,
        (
            "On diminue dix fois par tour, à intervalles réguliers, en prenant deux mailles ensemble : il reste 60 "
            "mailles.\nAprès 2 tours sans diminution, on diminue encore dix fois : il reste 50 mailles.\n"
            "Ensuite on diminue dix fois à chaque tour ; il reste à la fin 30 mailles."
        ),
        [60, 60, 60, 50, 40, 30],
    ),
    # the count that a round comes to, and where it is all begun again
    (
        84,
        (
            "Je divise mes 84 mailles par 7, ce qui me donne 12 mailles par quartier.\n"
            "À chaque quartier, je tricote 10 mailles puis 2 ensemble : je passe à 77 mailles.\n"
            "Un tour à l'endroit.\nÀ chaque quartier, 9 mailles puis 2 ensemble : je passe à 70.\n"
            "Un tour à l'endroit encore.\nEt je recommence jusqu'à ce qu'il me reste 56 mailles."
        ),
        [77, 77, 70, 70, 63, 63, 56],
    ),
    (
        120,
        (
            "On partage le tour en six, soit 20 mailles par sixième, et l'on place un fil à chaque limite.\n"
            "On diminue d'une maille avant chaque fil, par 2 mailles ensemble : 114 mailles.\n"
            "On répète cette diminution de 2 en 2 tours jusqu'à ce qu'il reste 102 mailles."
        ),
        [114, 114, 108, 108, 102],
    ),
    # stitches told before what is taken together, and rounds of rest that are given up
    (
        84,
        (
            "Pour le 1er tour de diminutions, nous tricotons 12 mailles et nous prenons les deux dernières de chaque "
            "groupe ensemble (78 mailles).\nLe tour 2 est un tour de repos.\n"
            "Pour le 3e tour, nous tricotons 11 mailles avant de prendre 2 mailles ensemble (72 mailles).\n"
            "Le tour 4 est un tour de repos.\n"
            "Nous faisons de même, avec une maille de moins à chaque fois, jusqu'à ce que nous n'ayons plus que 60 "
            "mailles ; à partir de là, plus de tours de repos, jusqu'à 42 mailles."
        ),
        [78, 78, 72, 72, 66, 66, 60, 54, 48, 42],
    ),
    (
        110,
        (
            "Les 110 mailles forment dix branches de onze mailles.\n"
            "1er tour. — Dans chaque branche, 9 mailles, 2 ensemble. 100 mailles.\n2e tour. — Sans diminuer."
        ),
        [100, 100],
    ),
    # the same with a number of its own
    (
        50,
        (
            "Tricotez un tour en faisant 10 fois : 3 mailles endroit, 2 mailles ensemble. Vous en avez 40.\n"
            "Tricotez un tour.\nMême chose avec 2 mailles endroit : 30. Un tour. Même chose avec 1 maille endroit : 20."
        ),
        [40, 40, 30, 30, 20],
    ),
    # rounds in quotation marks, one behind another
    (
        60,
        (
            "Je fais un tour de « 8 à l'endroit, 2 ensemble » (54), un tour à l'endroit, et puis un tour de "
            "« 7, 2 ensemble » (48), un de « 6, 2 ensemble » (42) et un de « 2 ensemble » (21)."
        ),
        [54, 54, 48, 42, 21],
    ),
    # even rounds that stay plain
    (
        60,
        (
            "À chaque tour impair on diminue de 6 mailles, les tours pairs restent unis.\n1er tour : 8 m., 2 m. ens.\n"
            "3e tour : 7 m., 2 m. ens.\nEt ainsi de suite jusqu'au 7e tour, où il ne reste que 36 mailles."
        ),
        [54, 54, 48, 48, 42, 42, 36],
    ),
]


@pytest.mark.parametrize(("cast_on", "text", "after"), PRINT)
def test_leaflets_print_rounds_short(cast_on: int, text: str, after: list[int]) -> None:
    """The rounds of what is printed in few signs."""
    assert after_rounds_of_sizes(read(text, (cast_on,), "fr")) == [after]


@pytest.mark.parametrize(("cast_on", "text", "after"), TALES)
def test_letters_tell_rounds_at_length(cast_on: int, text: str, after: list[int]) -> None:
    """The rounds of what is told in sentences."""
    assert after_rounds_of_sizes(read(text, (cast_on,), "fr")) == [after]


def test_a_rhythm_behind_a_comma_goes_with_its_decrease() -> None:
    """`Diminuer 6 m, 3 fois tous les 2 tours`: the decrease is none before the three."""
    text = EVERY_OTHER + "Diminuer 6 m, 3 fois tous les 2 tours."
    assert after_rounds_of_sizes(read(text, (60,), "fr")) == [[54, 54, 48, 48, 42, 42, 36]]


@pytest.mark.parametrize("sign", ["•", "·", "|", "."])
def test_sizes_stand_between_points(sign: str) -> None:
    """`76 • 84 • 92 m`: the numbers of three sizes."""
    text = f"76 {sign} 84 {sign} 92 m.\n*17 {sign} 19 {sign} 21 m., 2 m. ens.* = 72 {sign} 80 {sign} 88 m."
    assert after_rounds_of_sizes(read(text, (76, 84, 92), "fr")) == [[72], [80], [88]]


def test_ages_stand_between_points() -> None:
    """`T. 2 ans • 4 ans • 6 ans`: three sizes, and what is for some of them."""
    text = (
        "T. 2 ans • 4 ans • 6 ans\n76 • 84 • 92 m.\n*17 • 19 • 21 m., 2 m. ens.* = 72 • 80 • 88 m.\n"
        "Rép. ces dim. après 3 trs : *16 • 18 • 20 m., 2 m. ens.* = 68 • 76 • 84 m.\n"
        "2 ans : rép. 1 tr sur 2 jusqu'à 60 m.\n"
        "4 et 6 ans : rép. 1 tr sur 2 jusqu'à 72 m., puis au tr suiv. jusqu'à 68 m."
    )
    assert after_rounds_of_sizes(read(text, (76, 84, 92), "fr")) == [
        [72, 72, 72, 72, 68, 68, 64, 64, 60],
        [80, 80, 80, 80, 76, 76, 72, 68],
        [88, 88, 88, 88, 84, 84, 80, 80, 76, 76, 72, 68],
    ]


def test_a_number_behind_that_of_a_round_is_no_size() -> None:
    """`Tour 3 . 4 m`: two numbers with a full stop between them are a round and its work."""
    text = "Tour 1 . 4 m. end., 2 m. ens., 10 fois = 50 m.\nTour 2 : end."
    assert after_rounds_of_sizes(read(text, (60, 60), "fr")) == [[50, 50], [50, 50]]


def test_work_repeated_behind_a_semicolon_may_be_told_in_all() -> None:
    """`et recommencer 8 fois en tout`: eight times, and not eight more."""
    text = "Tour 1 : 8 m., 2 m. ens. ; et recommencer 8 fois en tout (72 m.)."
    assert after_rounds_of_sizes(read(text, (80,), "fr")) == [[72]]


def test_places_of_decreases_may_be_told_before_their_work() -> None:
    """`Toutes les 10 m. (donc 6 fois) : 8 m.`: what stands in the bracket is how often, and no round."""
    text = "Toutes les 10 m. (donc 6 fois) : 8 m. end., 2 m. ens. = 54 m."
    assert after_rounds_of_sizes(read(text, (60,), "fr")) == [[54]]
