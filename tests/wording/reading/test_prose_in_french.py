"""What teachers and old books print in French: crowns told in whole sentences."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes

BY_EIGHTS = "Tour 1 : *8 m. end., 2 m. ens.*, 8 fois. Il reste 72 m.\nTour 2 : end.\n"
"""A round that shapes eighty stitches, and a plain one."""
SLOWLY = [72, 72, 72, 72, 64, 64, 64, 64, 56, 56, 48, 48, 40]

CROWNS = [
    # the round told in a sentence, with its stitch in brackets, and the round behind each of them
    (
        (
            "Pour le premier tour de diminutions, tricotez 7 mailles à l'endroit puis faites un surjet double (glissez "
            "1 maille, tricotez 2 mailles ensemble à l'endroit, rabattez la maille glissée par-dessus). Recommencez "
            "jusqu'au bout du tour : 8 surjets, donc 64 mailles.\n"
            "Après chaque tour de surjets, faites un tour tout simple à l'endroit.\n"
            "Deuxième tour de diminutions : 5 mailles à l'endroit, 1 surjet double, et ainsi de suite (48 mailles)."
        ),
        [64, 64, 48],
    ),
    # stars behind `repeating`
    ("Tric. 1 rg en répétant *3 m. end., 2 m. ens. env.* ; il reste 64 m.", [64]),
    ("Au rg suiv., rép. *2 m. ens. end., 3 m. env.* ; il reste 64 m.", [64]),
    # the end of going on in a sentence of its own
    (
        (
            BY_EIGHTS
            + "Continuez en alternant un tour de diminutions et un tour sans diminution. Dès que le tour de "
            "diminutions vous laisse 56 mailles, diminuez à chaque tour, sans tour intermédiaire, jusqu'à ce qu'il "
            "n'en reste que 40."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    # the first of the rounds behind the heading of all of them
    ("Diminutions. — 1re diminution : 8 m. unies, 2 m. ensemble, tout le tour ; 72 mailles.", [72]),
    # going on with `these decreases`
    (
        (
            BY_EIGHTS + "Continuer ces diminutions tous les 2 tr jusqu'à ce qu'il reste 56 m.\n"
            "Tricoter 1 tr en prenant les m. 2 par 2 ens. end. = 28 m."
        ),
        [72, 72, 64, 64, 56, 28],
    ),
    (BY_EIGHTS + "Poursuivez ces dim. un tour sur deux jusqu'à ce qu'il reste 64 m.", [72, 72, 64]),
    (BY_EIGHTS + "Continuer ces dim. à tous les tours jusqu'à ce qu'il reste 56 m.", [72, 72, 64, 56]),
    # a double decrease behind stitches that are knitted, and a decrease that is not double
    (
        (
            "Dim. double : glisser 2 m ensemble comme pour les tric. ensemble à l'endroit, 1 m end, rabattre les 2 m "
            "glissées.\nT1 : (3 m end, 1 dim. double, 4 m end) x 8 - 64 m"
        ),
        [64],
    ),
    ("T1 : (5 mailles endroit puis une double diminution, 2 mailles endroit) x 8 - 64 m", [64]),
    ("T1 : (3 m end, 1 dim., 5 m end) x 8 - 72 m", [72]),
    # a stitch less between the decreases, and how often behind a colon
    (
        BY_EIGHTS
        + "Diminuer ainsi 8 m. (à chaque fois 1 m. de moins entre les dim.) tous les 4 rgs : encore 2 fois, "
        "il reste 56 m., puis tous les 2 rgs : 2 fois, il reste 40 m.",
        SLOWLY,
    ),
    (
        BY_EIGHTS
        + "Répéter ces diminutions (chaque fois 1 m. de moins entre 2 dim.) tous les 4 tours : encore 2 fois "
        "(56 m.), puis tous les 2 tours : 2 fois (40 m.).",
        SLOWLY,
    ),
    (
        BY_EIGHTS
        + "Diminuer ainsi 8 m. (1 m. de moins à chaque fois entre elles) tous les 4 tours : 2 fois de plus, "
        "il reste 56 m., puis tous les 2 tours, 2 fois, il reste 40 m.",
        SLOWLY,
    ),
]

SIZES = [
    (
        (76, 84),
        (
            "À a) 11 – b) 12 cm de haut. tot., marquer 4 m. en laissant a) 18 – b) 20 m. d'intervalle.\n"
            "Dim. 1 m. de ch. côté des 4 m. marquées, ts les 2 trs : a) 2 fs – b) 3 fs."
        ),
        [[68, 68, 60], [76, 76, 68, 68, 60]],
    ),
    ((70, 77), "*8 m. end. pour a), 9 m. end. pour b), 2 m. ens.* 7 fois = a) 63 b) 70 m.", [[63], [70]]),
    (
        (66, 78),
        (
            "Tailles S-L\n"
            "Vous avez 66-78 m. sur l'aiguille, réparties en six quartiers de 11-13 m.\n"
            "Tricotez les deux dernières mailles de chaque quartier ensemble ; le bonnet compte alors 60-72 m.\n"
            "Faites encore ces diminutions 1-2 fois, un tour sur deux, pour arriver à 54-60 m.\n"
            "Faites-les ensuite à tous les tours, jusqu'à ce qu'il ne reste que 7 mailles par quartier."
        ),
        [[60, 60, 54, 48, 42], [72, 72, 66, 66, 60, 54, 48, 42]],
    ),
]


PROSE = [
    (
        80,
        (
            "Au premier tour, tricotez huit mailles puis les deux suivantes ensemble, et recommencez "
            "jusqu'à la fin du tour. Voilà huit mailles de parties : il vous en reste 72.\n"
            "Le tour d'après se tricote sans rien changer.\n"
            "Au tour suivant, c'est sept mailles puis deux ensemble : 64 mailles.\n"
            "De nouveau un tour sans rien.\n"
            "Continuez de la même façon, avec chaque fois une maille de moins avant la diminution, un "
            "tour sur deux, jusqu'à ce qu'il vous reste 48 mailles."
        ),
        [72, 72, 64, 64, 56, 56, 48],
    ),
    (
        80,
        (
            "Tricotez jusqu'à deux mailles avant le marqueur, tricotez deux mailles ensemble, glissez "
            "le marqueur. Faites la même chose aux huit marqueurs. Huit mailles viennent de "
            "disparaître, il en reste 72.\n"
            "Tricotez ensuite un tour à l'endroit, sans diminuer.\n"
            "Ces deux tours se font cinq fois en tout."
        ),
        [72, 72, 64, 64, 56, 56, 48, 48, 40, 40],
    ),
    (
        80,
        (
            "Partagez vos 80 mailles en 8 parties de 10 mailles, séparées par des marqueurs. Tricotez "
            "ensemble les deux dernières mailles de chaque partie : 8 mailles en moins, donc 72 mailles.\n"
            "Alternez maintenant un tour avec diminutions et un tour sans, jusqu'à 48 mailles."
        ),
        [72, 72, 64, 64, 56, 56, 48],
    ),
    (
        80,
        (
            "Le premier tour de diminutions consiste à tricoter ensemble chaque 9e et 10e maille ; "
            "vous aurez alors 72 mailles.\n"
            "On tricote un tour tout droit, puis on recommence en prenant ensemble chaque 8e et 9e "
            "maille (64 mailles), puis un tour droit.\n"
            "Ensuite chaque 7e et 8e maille : 56 mailles ; un tour droit ; chaque 6e et 7e maille : 48 "
            "mailles."
        ),
        [72, 72, 64, 64, 56, 56, 48],
    ),
    (
        84,
        (
            "Mes élèves se trompent souvent ici, alors prenez votre temps. Tricotez 10 mailles, puis 2 "
            "mailles ensemble, et ainsi de suite jusqu'à la fin du tour. Comptez : 77 mailles.\n"
            "Un tour pour se reposer, sans diminutions.\n"
            "Puis 9 mailles et 2 ensemble tout le tour (70 mailles), et à nouveau un tour de repos.\n"
            "Puis 8 mailles et 2 ensemble (63 mailles), un tour de repos, et enfin 7 mailles et 2 "
            "ensemble : 56 mailles."
        ),
        [77, 77, 70, 70, 63, 63, 56],
    ),
    (
        96,
        (
            "Tour 1 : tricotez jusqu'à ce qu'il reste deux mailles avant le marqueur, puis "
            "tricotez-les ensemble. Procédez de même à chacun des huit marqueurs (88 m).\n"
            "Tour 2 : à l'endroit.\n"
            "Répétez ces deux tours jusqu'à ce que vous n'ayez plus que 48 mailles, le dernier tour "
            "étant un tour de diminutions."
        ),
        [88, 88, 80, 80, 72, 72, 64, 64, 56, 56, 48],
    ),
    (
        96,
        (
            "Au début de chacune des huit parties, faites un surjet simple et tricotez le reste de la "
            "partie à l'endroit ; les parties comptent 12 mailles. Il vous en restera 88.\n"
            "Le tour suivant est un tour de repos.\n"
            "Refaites encore une fois ces deux tours (80 mailles), puis continuez à diminuer, mais à "
            "chaque tour, trois fois. Vous voilà à 56 mailles."
        ),
        [88, 88, 80, 80, 72, 64, 56],
    ),
    (
        72,
        (
            "Répartissez six marqueurs, un toutes les 12 mailles. Deux mailles avant chaque marqueur, "
            "tricotez deux mailles ensemble. Il y a maintenant 66 mailles sur vos aiguilles.\n"
            "Tricotez un tour normalement.\n"
            "Désormais diminuez à chaque tour, sans tour de repos, jusqu'à 48 mailles."
        ),
        [66, 66, 60, 54, 48],
    ),
    (
        72,
        (
            "*10 m. end., 2 m. ens.* 6 fois. Restent 66 mailles.\n"
            "Vous tricotez deux tours sans diminuer, vous diminuez de nouveau (60 mailles), encore "
            "deux tours sans diminuer, puis une nouvelle diminution (54 mailles) suivie d'un seul tour "
            "uni.\n"
            "Pour finir, diminuez trois tours de suite ; il vous restera 36 mailles."
        ),
        [66, 66, 66, 60, 60, 60, 54, 54, 48, 42, 36],
    ),
    (
        64,
        (
            "Vous avez 64 mailles et 4 aiguilles de 16 mailles. Sur chaque aiguille, tricotez les deux "
            "premières mailles ensemble et les deux dernières aussi. Cela enlève huit mailles : 56 "
            "mailles.\n"
            "Puis un tour sans diminutions. Faites ces deux tours encore une fois, puis encore un tour "
            "de diminutions : vous avez 40 mailles."
        ),
        [56, 56, 48, 48, 40],
    ),
    (
        90,
        (
            "Diminuez de dix mailles au premier tour en tricotant 7 mailles, puis deux ensemble, dix "
            "fois de suite. Vous avez donc 80 mailles.\n"
            "Tricotez un tour sans diminuer.\n"
            "Recommencez ces deux tours encore deux fois (avec une maille de moins à chaque fois), "
            "puis un dernier tour de diminutions vous amène à 50 mailles."
        ),
        [80, 80, 70, 70, 60, 60, 50],
    ),
    (
        90,
        (
            "Divisez vos 90 mailles par six : cela fait 15 mailles par partie. Sur chaque partie, "
            "tricotez 13 mailles à l'endroit et les deux dernières ensemble. Six mailles ont disparu, "
            "vous en avez 84.\n"
            "Au tour suivant, on ne diminue pas.\n"
            "On répète ces deux tours trois fois en tout, puis on fait un dernier tour de diminutions "
            "pour arriver à 66 mailles."
        ),
        [84, 84, 78, 78, 72, 72, 66],
    ),
    (
        100,
        (
            "Vous tricotez huit mailles, puis deux mailles ensemble, et ce jusqu'à la fin du tour. "
            "Vous avez diminué dix mailles, donc il en reste 90.\n"
            "Vous faites un tour à l'endroit, puis vous diminuez encore : sept mailles, deux mailles "
            "ensemble, il en reste 80. Encore un tour à l'endroit.\n"
            "Maintenant, plus de tour à l'endroit entre les diminutions : 6 mailles, 2 ensemble (70), "
            "puis 5 mailles, 2 ensemble (60), puis 4 mailles, 2 ensemble (50)."
        ),
        [90, 90, 80, 80, 70, 60, 50],
    ),
    (
        88,
        (
            "Les diminutions se font ainsi : neuf mailles, puis deux mailles tricotées ensemble, et "
            "cela huit fois. On n'a plus alors que 80 mailles.\n"
            "On fait un tour sans diminuer, puis on diminue de nouveau, mais en ne tricotant que huit "
            "mailles entre les diminutions ; il reste 72 mailles.\n"
            "On continue de même, en diminuant tous les deux tours et en tricotant toujours une maille "
            "de moins, jusqu'à n'avoir plus que 48 mailles."
        ),
        [80, 80, 72, 72, 64, 64, 56, 56, 48],
    ),
    (
        88,
        (
            "Posez 8 marqueurs, à 11 mailles les uns des autres. Juste avant chaque marqueur, tricotez "
            "deux mailles ensemble. Vous perdez huit mailles et il vous en reste donc 80.\n"
            "Au tour qui suit, rien de particulier : tout à l'endroit.\n"
            "Faites ces deux tours trois fois en tout. Ensuite, le tour sans diminution disparaît : "
            "diminuez chaque tour, jusqu'à 40 mailles."
        ),
        [80, 80, 72, 72, 64, 64, 56, 48, 40],
    ),
    (
        72,
        (
            "On divise l'ouvrage en 8 parties de 9 mailles. À la fin de chaque partie, on prend deux "
            "mailles ensemble, ce qui laisse 64 mailles.\n"
            "On tricote un tour uni après ce tour diminué, puis on diminue encore, ce qui laisse 56 "
            "mailles, et l'on fait un tour uni.\n"
            "Dès lors on diminue à tous les tours ; on s'arrête à 32 mailles."
        ),
        [64, 64, 56, 56, 48, 40, 32],
    ),
    (
        72,
        (
            "1er tour : * 10 m. endroit, 2 m. ensemble * ; répéter six fois : 66 mailles.\n"
            "2e tour : à l'endroit.\n"
            "Répéter ces deux tours, en diminuant d'une maille l'intervalle entre les diminutions, "
            "jusqu'à 48 mailles ; faire un tour à l'endroit ; puis supprimer le tour intermédiaire et "
            "diminuer à chaque tour jusqu'à 30 mailles."
        ),
        [66, 66, 60, 60, 54, 54, 48, 48, 42, 36, 30],
    ),
    (
        72,
        (
            "Commencez les diminutions : tricotez 10 mailles, 2 mailles ensemble, et continuez comme "
            "ça tout le tour. Six mailles de moins, soit 66.\n"
            "Tricotez deux tours sans diminuer.\n"
            "Refaites un tour de diminutions, mais avec 9 mailles au lieu de 10 : vous avez 60 "
            "mailles. De nouveau deux tours sans diminuer.\n"
            "Encore un tour de diminutions (8 mailles, 2 ensemble) : 54 mailles. Cette fois un seul "
            "tour sans diminuer.\n"
            "À partir de maintenant, diminuez à chaque tour : 7 mailles, 2 ensemble (48), 6 mailles, 2 "
            "ensemble (42)."
        ),
        [66, 66, 66, 60, 60, 60, 54, 54, 48, 42],
    ),
    (
        96,
        (
            "Dans le premier tour de diminutions, tricotez ensemble toutes les 15e et 16e mailles ; "
            "cela fait 6 diminutions et laisse 90 mailles.\n"
            "Tricotez un tour à l'endroit.\n"
            "Diminuez ainsi tous les deux tours, trois fois encore, les diminutions tombant les unes "
            "au-dessus des autres : il reste 72 mailles. Puis diminuez à tous les tours, deux fois : "
            "il reste 60 mailles."
        ),
        [90, 90, 84, 84, 78, 78, 72, 66, 60],
    ),
    (
        60,
        (
            "À vous ! Tricotez 8 mailles endroit, puis tricotez les 2 suivantes ensemble. Recommencez "
            "cela encore 5 fois, et vous aurez fait un tour : 54 mailles.\n"
            "Puis tricotez un tour sans vous occuper de rien.\n"
            "Ces deux tours, vous allez les refaire encore deux fois, avec à chaque fois une maille de "
            "moins avant la diminution (42 mailles).\n"
            "Ensuite, finis les tours de repos ! Diminuez 6 mailles à chaque tour, jusqu'à ce qu'il "
            "reste 12 mailles."
        ),
        [54, 54, 48, 48, 42, 42, 36, 30, 24, 18, 12],
    ),
    (
        72,
        (
            "Il faut maintenant diminuer 8 mailles par tour, un tour sur deux. Pour cela, tricotez 7 "
            "mailles à l'endroit, 2 mailles ensemble, 8 fois : 64 mailles.\n"
            "Le tour intermédiaire est tout à l'endroit.\n"
            "Au tour de diminutions suivant, il n'y a plus que 6 mailles avant les 2 mailles ensemble "
            ": 56 mailles. Tour intermédiaire à l'endroit.\n"
            "Puis 5 mailles, 2 mailles ensemble : 48 mailles."
        ),
        [64, 64, 56, 56, 48],
    ),
    (
        84,
        (
            "Répartissez vos mailles en six parts égales de 14 mailles, avec un anneau entre chaque "
            "part. Au tour de diminutions, on tricote les deux dernières mailles de chaque part "
            "ensemble. Il reste 78 mailles.\n"
            "On alterne ensuite un tour normal et un tour de diminutions jusqu'à 60 mailles.\n"
            "On termine par un dernier tour de diminutions, sans tour normal avant : 54 mailles."
        ),
        [78, 78, 72, 72, 66, 66, 60, 54],
    ),
    (
        90,
        (
            "Tour 1 : tricotez 8 mailles et assemblez les 2 suivantes, neuf fois. 81 mailles.\n"
            "Tour 2 et tous les tours pairs : tricotez les mailles comme elles se présentent.\n"
            "Tour 3 : 7 mailles, puis 2 ensemble. 72 mailles.\n"
            "Continuez de diminuer 9 mailles à tous les tours impairs, jusqu'au tour 7 compris : 54 "
            "mailles."
        ),
        [81, 81, 72, 72, 63, 63, 54],
    ),
    (
        60,
        (
            "Chaque tour de diminutions supprime six mailles. Pour le premier, tricotez 8 mailles, "
            "puis 2 mailles ensemble, sur tout le tour (54 mailles).\n"
            "Il est suivi d'un tour sans diminutions, comme tous les autres.\n"
            "Pour le deuxième, 7 mailles et 2 ensemble (48 mailles) ; pour le troisième, 6 mailles et "
            "2 ensemble (42 mailles) ; pour le quatrième, 5 mailles et 2 ensemble (36 mailles)."
        ),
        [54, 54, 48, 48, 42, 42, 36],
    ),
    (
        80,
        (
            "Quand le bonnet mesure 15 cm, diminuez : 8 mailles, 2 mailles ensemble, et ainsi de suite "
            "; on a 72 mailles.\n"
            "Un rang à l'endroit entre chaque rang de diminutions.\n"
            "7 mailles, 2 ensemble ; on a 64 mailles. 6 mailles, 2 ensemble ; on a 56 mailles. 5 "
            "mailles, 2 ensemble ; on a 48 mailles."
        ),
        [72, 72, 64, 64, 56, 56, 48],
    ),
    # yarn slipped through the last stitches is no round
    (
        80,
        "Tour 1 : *8 m. end., 2 m. ens.*, 8 fois = 72 m.\nGlisser le fil dans les 72 m. restantes, serrer.",
        [72],
    ),
    # what is repeated has other figures, and the decreases return more often
    (
        96,
        (
            "Tricotez 13 mailles endroit, un surjet double, et cela six fois. Vous voilà à 84 mailles.\n"
            "Trois tours à l'endroit.\n"
            "Reprenez ces quatre tours une seule fois, avec 11 mailles au lieu de 13 (72 mailles).\n"
            "Dès le tour suivant, le tour de diminutions revient un tour sur deux, avec toujours deux "
            "mailles de moins entre les surjets, jusqu'à ce qu'il reste 48 mailles."
        ),
        [84, 84, 84, 84, 72, 72, 72, 72, 60, 60, 48],
    ),
    # places counted on each needle
    (
        64,
        (
            "Les mailles sont sur quatre aiguilles, soit 16 mailles par aiguille.\n"
            "Sur chaque aiguille, prenez ensemble à l'endroit la 7e et la 8e maille, puis la 15e et la "
            "16e. Il reste 56 mailles. Faites 2 tours unis.\n"
            "Prenez ensuite ensemble la 6e et la 7e maille, puis la 13e et la 14e de chaque aiguille ; "
            "il y a 48 mailles."
        ),
        [56, 56, 56, 48],
    ),
    # ribs narrowed, and the same round again
    (
        96,
        (
            "Les 2 mailles endroit se tricotent normalement, mais les 2 mailles envers se tricotent "
            "ensemble à l'envers : 72 mailles.\n"
            "Ensuite, ce sont les 2 mailles endroit que l'on tricote ensemble à l'endroit, la maille "
            "envers restant à l'envers : 48 mailles.\n"
            "Puis tricotez toutes les mailles 2 par 2 à l'endroit (24 mailles), et recommencez de même "
            "au tour suivant (12 mailles)."
        ),
        [72, 48, 24, 12],
    ),
    # the same decreases on the next round, and a round announced
    (
        80,
        BY_EIGHTS + "Au tour suivant, diminuez encore de la même façon.\nMêmes diminutions au tour suivant.",
        [72, 72, 64, 56],
    ),
    (80, BY_EIGHTS + "Au tour suivant, diminuez ainsi :\n*7 m. end., 2 m. ens.* = 64 m.", [72, 72, 64]),
    (80, "Sur le dernier tour de côtes, faire 1 augmentation intercalaire toutes les 10 mailles.", [88]),
    # decreases beside marked stitches, on needles by their number, and in old print
    (
        72,
        (
            "On marque six mailles à égale distance.\n"
            "De chaque côté des six mailles marquées, on fait une diminution : 60 mailles.\n"
            "On tricote un tour sans diminuer.\n"
            "On diminue de nouveau : 48 mailles. Un tour sans diminuer.\n"
            "Désormais, on diminue à chaque tour, jusqu'à ce qu'il n'en reste que 24."
        ),
        [60, 60, 48, 48, 36, 24],
    ),
    (
        84,
        (
            "Repérez 6 mailles centrales, une toutes les 14 mailles.\n"
            "Au prochain tour, faites une double diminution centrée sur chaque maille repérée. Comptez : 72 mailles."
        ),
        [72],
    ),
    (
        72,
        (
            "Sur chacune des trois aiguilles, tricotez les deux premières mailles ensemble et les deux "
            "dernières ensemble. Vous avez retiré six mailles, il en reste 66.\n"
            "Le tour qui suit se tricote sans diminution.\n"
            "On refait ces deux tours encore une fois."
        ),
        [66, 66, 60, 60],
    ),
    (
        96,
        (
            "On divise le tour en douze parties de huit mailles.\n"
            "À la fin de chaque partie, on prend deux mailles ensemble : 84 mailles.\n"
            "On fait un tour sans rétrécir.\n"
            "On rétrécit ainsi de deux tours en deux tours, jusqu'à ce qu'il n'y ait plus que 60 mailles."
        ),
        [84, 84, 72, 72, 60],
    ),
    # the same with other figures
    (
        48,
        (
            "Tour 1 : 4 mailles, 2 ensemble, huit fois (40 mailles).\n"
            "Tour 2 : pareil, mais avec 3 mailles (32 mailles).\n"
            "Tour 3 : pareil avec 2 mailles (24 mailles).\n"
            "Tour 4 : que des 2 ensemble (12 mailles)."
        ),
        [40, 32, 24, 12],
    ),
    # what all rounds that shape do is no round
    (80, "Diminuez huit mailles à chaque tour de diminutions.\n" + BY_EIGHTS, [72, 72]),
    # rounds let pass, the round that shapes again, and decreases on so many rounds running
    (
        80,
        (
            "On tricote 6 mailles, 2 ensemble, dix fois ; on a 70 mailles.\n"
            "On laisse passer un tour.\n"
            "On tricote 5 mailles, 2 ensemble, dix fois ; on a 60 mailles.\n"
            "On tricote 4 mailles, 2 ensemble (50), puis 3 mailles, 2 ensemble (40), sans laisser passer de tour."
        ),
        [70, 70, 60, 50, 40],
    ),
    (
        84,
        (
            "Marquez une maille toutes les 14 mailles.\n"
            "Tour de diminutions : tricotez 2 mailles ensemble avant et un surjet simple après chaque maille "
            "marquée. 72 mailles.\n"
            "Tour suivant : endroit.\n"
            "Répétez le tour de diminutions : 60 mailles.\n"
            "Tour suivant : endroit.\n"
            "Répétez le tour de diminutions : 48 mailles."
        ),
        [72, 72, 60, 60, 48],
    ),
    (
        60,
        "Diminuez six mailles à chaque tour, trois tours de suite : il vous restera 42 mailles.",
        [54, 48, 42],
    ),
    (
        60,
        (
            "Rang 1 : *8 m, 2 m ens* x6 (54 m)\n"
            "Rang 2 : end\n"
            "À partir du rang 3, on diminue à tous les rangs, soit 48 m au rang 3, 42 m au rang 4 et 36 m au rang 5."
        ),
        [54, 54, 48, 42, 36],
    ),
    # decreases above those before them, so many times; rounds that repeat so many stitches so many times
    (
        72,
        (
            "Dim. 6 m. réparties : *10 m. end., 2 m. ens.*, 6 fois.\n"
            "Dim. encore 6 m. au-dessus des précédentes tous les 2 tours : 2 fois. Il reste 54 m."
        ),
        [66, 66, 60, 60, 54],
    ),
    (
        72,
        "Tour 1 : *10 m. end., 2 m. ens.*, 6 fois.\nDim. encore 6 m. un tour sur deux, 2 fois.",
        [66, 66, 60, 60, 54],
    ),
    (72, "Tour 1 : *10 m. end., 2 m. ens.*, 6 fois.\nDim. encore 6 m. au tour suivant.", [66, 60]),
    (
        84,
        "Au dernier tour de côtes, augmenter 12 m. réparties : *7 m. end., 1 augm.*, rép. de * à * tout le tour.",
        [96],
    ),
    (84, "Augmenter 12 m. au dernier tour de côtes : *7 m. end., 1 augm.*, rép. de * à *.", [96]),
    (90, "Tric. 1 tr end. en répétant 9 fois : 7 m. end., 1 surjet double.", [72]),
    (90, "Tricotez 1 rang à l'endroit en répétant 9 fois : 7 m. end., 1 surjet double.", [72]),
    (90, "Au tour suivant, en répétant 9 fois : 8 m. end., 2 m. ens.", [81]),
    (
        48,
        (
            "Au 1er tour, alternez 5 m. endroit et 1 surjet double : vous en faites 6 en tout, il reste 36 m.\n"
            "Le 2e tour est de nouveau à l'endroit.\n"
            "3e et dernier tour : 2 m. ensemble à l'endroit, 18 fois."
        ),
        [36, 36, 18],
    ),
    # a teacher who lets you rest
    (
        72,
        (
            "Premier tour : tu tricotes 7 mailles à l'endroit, puis les 2 suivantes ensemble, et tu recommences comme "
            "ça jusqu'au marqueur. Tu as diminué 8 fois, il te reste donc 64 mailles.\n"
            "Deuxième tour : on souffle, tout à l'endroit.\n"
            "Troisième tour : pareil que le premier, mais avec seulement 6 mailles avant chaque diminution.\n"
            "Quatrième tour : on souffle encore.\n"
            "Cinquième tour : comme au premier tour, avec 5 mailles avant les diminutions.\n"
            "On continue ainsi, un tour sans diminutions, un tour avec, toujours avec une maille de moins, jusqu'à ce "
            "qu'il n'y ait plus que 40 mailles.\n"
            "Pour finir, un dernier tour tout à l'endroit, puis un tour où tu tricotes toutes les mailles deux par "
            "deux : 20 mailles."
        ),
        [64, 64, 56, 56, 48, 48, 40, 40, 20],
    ),
]


@pytest.mark.parametrize(("text", "after"), CROWNS)
def test_crowns_are_told_in_sentences(text: str, after: list[int]) -> None:
    """Crowns of eighty stitches."""
    assert after_rounds_of_sizes(read(text, (80,), "fr")) == [after]


@pytest.mark.parametrize(("cast_on", "text", "after"), SIZES)
def test_sizes_are_told_by_letters(cast_on: tuple[int, ...], text: str, after: list[list[int]]) -> None:
    """Crowns of two sizes."""
    assert after_rounds_of_sizes(read(text, cast_on, "fr")) == after


@pytest.mark.parametrize(("cast_on", "text", "after"), PROSE)
def test_rounds_and_how_they_go_on_stand_in_sentences_of_their_own(
    cast_on: int, text: str, after: list[int]
) -> None:
    """The round, its repetition, its count and the going on, as a teacher tells them."""
    assert after_rounds_of_sizes(read(text, (cast_on,), "fr")) == [after]
