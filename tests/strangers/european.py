"""Books in German, French, Spanish and Italian, each with its own habits of commas and dates."""

from __future__ import annotations

import datetime

from .pen import Book


def _comma(digits):
    return lambda value: f"{value:.{digits}f}".replace(".", ",")


def _day(job, key, day):
    """A date typed as text: the truth is the day, the text counts too."""
    known = job.fields[key]
    known["also"], known["value"] = [known["value"]], day


def german():
    b = Book(
        "s13",
        "Werkstattkarte_2025-017.ods",
        4,
        "Dezimalkommas als Text; Bohrung 3 mit vertauschten Ziffern",
        eng=True,
    )
    p = b.sheet("Werkstattkarte", [34, 12, 12, 12, 12])
    p.put("A1", "Motoreninstandsetzung Brandlhuber   Tel. 0555 01 23 4", bold=True)
    p.put("A2", "Auftrags-Nr.").field("B2", "number", "2025-017").put("C2", "Kunde").field(
        "D2", "customer", "Autohaus Wendel"
    )
    p.put("A3", "Motor").field("B3", "engine", "Reihenvierzylinder 1,8 l").put(
        "C3", "Bearbeiter"
    ).field("D3", "builder", "J. Köttgen")
    p.put("A4", "Eingang").field("B4", "started", "03.03.2025").put("C4", "Fertig").field(
        "D4", "finished", "28.03.2025"
    )
    _day(p.job, "started", "2025-03-03"), _day(p.job, "finished", "2025-03-28")
    p.put("A5", "Alle Maße in mm, Messtemperatur 20 °C").heads("A7", "Zylinder", 1, 2, 3, 4)
    p.labels(
        "A8",
        "Bohrung gehont",
        "Kolben-Ø",
        "Einbauspiel",
        "Stoßspiel Ring 1",
        "Stoßspiel Ring 2",
        "Stoßspiel Ölring",
        "Kolbenunterstand",
        "Quetschspalt",
        "Brennraum (cm³)",
    )
    p.across(
        "B8", "bore", "mm", [83.612, 83.614, 86.312, 83.613], typed=_comma(3), doubt={3}
    ).plant("digits_exchanged", "Bohrung 3 86,312 statt 83,612", "D8", "D9", "D10")
    p.across("B9", "piston_diameter", "mm", [83.57, 83.57, 83.569, 83.571], typed=_comma(3)).across(
        "B10", "piston_clearance", "mm", [0.042, 0.044, 0.043, 0.042], typed=_comma(3), stated=True
    )
    p.across("B11", "top_ring_gap", "mm", [0.35, 0.33, 0.34, 0.35]).across(
        "B12", "second_ring_gap", "mm", [0.4, 0.41, 0.4, 0.42]
    ).across("B13", "oil_ring_gap", "mm", [0.3, 0.3, 0.32, 0.31])
    p.across("B14", "deck_clearance", "mm", [0.12, 0.1, 0.11, 0.13]).formulas_across(
        "B15", '=ENG.QUENCH({c}14,$B$20,"metric")', 4, "quench", "mm", shown="0.00"
    )
    p.across("B16", "chamber_volume", "cc", [46.2, 46.0, 46.3, 46.1])
    p.labels(
        "A18",
        "Hub",
        "Pleuellänge",
        "ZKD verpresst",
        "ZKD Bohrung",
        "Kolbenmulde (cm³)",
        "Hubraum cm³",
        "Axialspiel Kurbelwelle",
    )
    p.fact("B18", "stroke", 81.8, "mm", shown="0.0").fact("B19", "rod_length", 141, "mm").fact(
        "B20", "gasket_thickness", 1.2, "mm"
    ).fact("B21", "gasket_bore", 85, "mm")
    p.fact("B22", "crown_volume", 6.5, "cc").fact(
        "B24", "crank_end_play", 0.09, "mm", typed="0,09 mm"
    )
    p.formula("B23", '=ENG.DISPLACEMENT(83.612,B18,4,"metric")', "displacement", "cc", shown="0")
    p.heads("A27", "Hauptlager", 1, 2, 3, 4, 5).labels("A28", "Grundzapfen", "Lagerspiel")
    p.across(
        "B28", "main_journal", "mm", b.near(55.475, 5, 0.002, digits=3), typed=_comma(3)
    ).across(
        "B29", "main_bearing_clearance", "mm", [0.042, 0.045, 0.04, 0.043, 0.046], typed=_comma(3)
    )
    p.put("A31", "Ventilspiel kalt").put("A32", "Einlass").fact(
        "B32", "intake_lash", 0.2, "mm"
    ).put("A33", "Auslass").fact("B33", "exhaust_lash", 0.3, "mm")
    p.put("A35", "Anzugsmomente: Hauptlager 65 Nm, Pleuel 30 Nm + 90°, Kopf 40 Nm + 90° + 90°").put(
        "A36", "Bemerkung: Block geplant 0,1; Ersatzteile lt. Beleg 4471, 612,80 €"
    )
    p.either("A35")
    return b


def french():
    b = Book(
        "s14", "fiche moteur - Gaillac.xlsx", 4, "fiche avec ses propres calculs; rien de faux"
    )
    p = b.sheet("Fiche moteur", [32, 12, 12, 12, 12, 12])
    p.put("A1", "ATELIER DU VIEUX LAVOIR – rectification", bold=True).put(
        "A2", "N° de fiche"
    ).field("B2", "number", "F-288").put("D2", "Client").field("E2", "customer", "Mme Gaillac")
    p.put("A3", "Moteur").field("B3", "engine", "1118 cm3 culbuté").put("D3", "Mécanicien").field(
        "E3", "builder", "Rémi"
    )
    p.put("A4", "Entrée le").field(
        "B4", "started", datetime.date(2024, 10, 14), shown="dd/mm/yyyy"
    ).put("D4", "Sortie le").field(
        "E4", "finished", datetime.date(2024, 11, 29), shown="dd/mm/yyyy"
    )
    p.put("A6", "Cotes en mm", bold=True).heads(
        "B6", "Cyl. 1", "Cyl. 2", "Cyl. 3", "Cyl. 4", "Moyenne"
    )
    p.labels(
        "A7",
        "Alésage chemise",
        "Ø piston",
        "Jeu piston/chemise",
        "Dépassement chemise",
        "Jeu à la coupe segment feu",
        "Jeu à la coupe 2e segment",
        "Jeu à la coupe racleur",
        "Retrait piston au PMH",
        "Volume chambre (cm3)",
    )
    p.across("B7", "bore", "mm", b.near(71.012, 4, 0.003, digits=3), shown="0.000").across(
        "B8", "piston_diameter", "mm", b.near(70.968, 4, 0.003, digits=3), shown="0.000"
    )
    p.formulas_across("B9", "={c}7-{c}8", 4, "piston_clearance", "mm", shown="0.000").across(
        "B10", "liner_protrusion", "mm", [0.1, 0.11, 0.1, 0.12]
    )
    p.across("B11", "top_ring_gap", "mm", [0.28, 0.3, 0.3, 0.27]).across(
        "B12", "second_ring_gap", "mm", [0.3, 0.3, 0.32, 0.3]
    ).across("B13", "oil_ring_gap", "mm", [0.25, 0.25, 0.24, 0.25])
    p.across("B14", "deck_clearance", "mm", [0.35, 0.36, 0.34, 0.35]).across(
        "B15", "chamber_volume", "cc", [27.8, 27.9, 27.7, 27.8]
    )
    p.formulas_across("F7", "=AVERAGE(B7:E7)", 1).formulas_down(
        "F8", "=AVERAGE(B{r}:E{r})", 8
    ).either(*(f"F{r}" for r in range(7, 16)))
    p.labels(
        "A17",
        "Course",
        "Entraxe bielle",
        "Épaisseur joint de culasse serré",
        "Ø joint de culasse",
        "Cylindrée",
        "Jeu latéral vilebrequin",
    )
    p.fact("B17", "stroke", 70.6, "mm").fact("B18", "rod_length", 124.5, "mm").fact(
        "B19", "gasket_thickness", 1.1, "mm"
    ).fact("B20", "gasket_bore", 72.5, "mm")
    p.formula("B21", "=PI()*F7^2/4*B17*4/1000", "displacement", "cc", shown="0.0").put(
        "C21", "cm3"
    ).fact("B22", "crank_end_play", 0.12, "mm")
    p.put("A24", "Paliers", bold=True).heads("B24", "1 (volant)", "2", "3").labels(
        "A25", "Ø tourillon", "Jeu palier"
    )
    p.across("B25", "main_journal", "mm", [47.485, 47.486, 47.484], shown="0.000").across(
        "B26", "main_bearing_clearance", "mm", [0.045, 0.05, 0.048], shown="0.000"
    )
    p.put("A27", "Bielles", bold=True).heads("B27", "1", "2", "3", "4").labels(
        "A28", "Ø maneton", "Jeu bielle"
    ).across("B28", "rod_journal", "mm", b.near(44.48, 4, 0.002, digits=3), shown="0.000")
    p.across("B29", "rod_bearing_clearance", "mm", [0.042, 0.044, 0.04, 0.043]).put(
        "A31", "Jeu aux culbuteurs à froid"
    ).put("A32", "Admission").fact("B32", "intake_lash", 0.15, "mm", typed="0,15").put(
        "A33", "Échappement"
    ).fact("B33", "exhaust_lash", 0.2, "mm", typed="0,20")
    p.put("A34", "Serrage culasse").fact("B34", "head_bolt_torque", 6, "kgm", typed="6 m.kg").put(
        "A36", "Réf. pochette joints 41-02-455, 48,50 €; tél. cliente 05 55 01 02 03"
    )
    return b


def spanish():
    b = Book(
        "s15",
        "Hoja de taller 331.ods",
        3,
        "hoja de taller con una cilindrada vieja escrita encima",
        calculated=True,
    )
    p = b.sheet("Hoja", [34, 12, 12, 12, 14])
    p.put("A1", "RECTIFICADOS EL MOLINO - hoja de taller", bold=True).put("A2", "Orden nº").field(
        "B2", "number", "331/25"
    ).put("C2", "Cliente").field("D2", "customer", "Cooperativa San Roque")
    p.put("A3", "Motor").field("B3", "engine", "diésel 3 cil. tractor").put("C3", "Operario").field(
        "D3", "builder", "Paco Lería"
    )
    p.put("A4", "Fecha entrada").field(
        "B4", "started", datetime.date(2025, 1, 9), shown="dd/mm/yy"
    ).put("C4", "Fecha salida").field(
        "D4", "finished", datetime.date(2025, 1, 31), shown="dd/mm/yy"
    )
    p.heads("A6", "medidas en mm", "1", "2", "3", "límite")
    p.labels(
        "A7",
        "Diámetro cilindro",
        "Diámetro pistón",
        "Holgura pistón",
        "Altura camisa sobre bloque",
        "Pistón sobre bloque",
        "Abertura 1er segmento",
        "Abertura 2º segmento",
        "Abertura rascador",
        "Compresión (bar)",
        "Presión inyector (bar)",
    )
    p.across("B7", "bore", "mm", [92.512, 92.51, 92.514], shown="0.000").across(
        "B8", "piston_diameter", "mm", [92.4, 92.401, 92.399], shown="0.000"
    )
    p.formulas_across("B9", "={c}7-{c}8", 3, "piston_clearance", "mm", shown="0.000").across(
        "B10", "liner_protrusion", "mm", [0.06, 0.07, 0.06]
    )
    p.across("B11", "piston_protrusion", "mm", [0.45, 0.47, 0.46]).across(
        "B12", "top_ring_gap", "mm", [0.4, 0.42, 0.41]
    ).across("B13", "second_ring_gap", "mm", [0.38, 0.4, 0.4]).across(
        "B14", "oil_ring_gap", "mm", [0.3, 0.32, 0.3]
    )
    p.across("B15", "cranking_pressure", "bar", [26, 26.5, 26]).across(
        "B16", "injector_pressure", "bar", [210, 210, 212]
    ).put("E10", "0,03-0,10").put("E12", "1,2 máx")
    p.labels(
        "A18",
        "Carrera",
        "Cilindrada cm3",
        "Longitud biela",
        "Juego axial cigüeñal",
        "Junta culata (apretada)",
    )
    p.fact("B18", "stroke", 124.6, "mm").fact(
        "B19", "displacement", 2485, "cc", doubt=True, stated=True
    ).fact("B20", "rod_length", 221.4, "mm").fact("B21", "crank_end_play", 0.2, "mm").fact(
        "B22", "gasket_thickness", 1.35, "mm", typed="1,35 mm"
    )
    p.plant(
        "stale_total", "cilindrada 2485 del diámetro de origen; las medidas dan 2513", "B19"
    ).heads("A24", "Apoyos bancada", "1", "2", "3", "4").labels(
        "A25", "Muñequilla bancada", "Holgura aceite bancada"
    )
    p.across("B25", "main_journal", "mm", [71.242, 71.243, 71.241, 71.242], shown="0.000").across(
        "B26", "main_bearing_clearance", "mm", [0.07, 0.072, 0.075, 0.07]
    )
    p.heads("A28", "Bielas", "1", "2", "3").labels(
        "A29", "Muñequilla biela", "Holgura aceite biela"
    ).across("B29", "rod_journal", "mm", [58.46, 58.459, 58.461], shown="0.000").across(
        "B30", "rod_bearing_clearance", "mm", [0.06, 0.062, 0.058]
    )
    p.labels(
        "A32", "Reglaje válvulas admisión", "Reglaje válvulas escape", "Par culata", "Par biela"
    ).fact("B32", "intake_lash", 0.3, "mm").fact("B33", "exhaust_lash", 0.35, "mm").fact(
        "B34", "head_bolt_torque", 110, "Nm", typed="110 Nm"
    ).fact("B35", "rod_bolt_torque", 75, "Nm", typed="75 Nm")
    p.put("D34", "Mano de obra").put("E34", 540).put("D35", "Total con IVA").put("E35", "=E34*1.21")
    return b


def italian():
    b = Book(
        "s16", "scheda motore 2T04.xlsx", 4, "scheda con formule ENG; niente di sbagliato", eng=True
    )
    p = b.sheet("Scheda", [32, 12, 12, 12, 12])
    p.put("A1", "OFFICINA LA PIEVE  -  SCHEDA MOTORE", bold=True).put("A2", "Commessa").field(
        "B2", "number", "24-112"
    ).put("C2", "Cliente").field("D2", "customer", "Scuderia Tre Valli")
    p.put("A3", "Motore").field("B3", "engine", "bialbero 1600 gara").put("C3", "Montaggio").field(
        "D3", "builder", "Ezio B."
    )
    p.put("A4", "Inizio").field("B4", "started", datetime.date(2024, 5, 6), shown="dd/mm/yyyy").put(
        "C4", "Fine"
    ).field("D4", "finished", datetime.date(2024, 6, 14), shown="dd/mm/yyyy")
    p.heads("A6", "Cilindro", 1, 2, 3, 4)
    p.labels(
        "A7",
        "Alesaggio (mm)",
        "Diametro pistone (mm)",
        "Gioco pistone (mm)",
        "Luce segmento 1 (mm)",
        "Luce segmento 2 (mm)",
        "Pistone sotto il piano (mm)",
        "Squish (mm)",
        "Camera di scoppio (cc)",
        "Rapporto di compressione",
        "Gioco valvola asp. (mm)",
        "Gioco valvola scar. (mm)",
    )
    p.across("B7", "bore", "mm", b.near(80.412, 4, 0.002, digits=3), shown="0.000").across(
        "B8", "piston_diameter", "mm", b.near(80.332, 4, 0.002, digits=3), shown="0.000"
    )
    p.formulas_across(
        "B9",
        '=ENG.PISTON_CLEARANCE({c}7,{c}8,"metric")',
        4,
        "piston_clearance",
        "mm",
        shown="0.000",
    ).across("B10", "top_ring_gap", "mm", [0.36, 0.35, 0.36, 0.37]).across(
        "B11", "second_ring_gap", "mm", [0.4, 0.4, 0.39, 0.4]
    )
    p.across("B12", "deck_clearance", "mm", [0.15, 0.14, 0.15, 0.16]).formulas_across(
        "B13", '=ENG.QUENCH({c}12,$B$21,"metric")', 4, "quench", "mm", shown="0.00"
    ).across("B14", "chamber_volume", "cc", [41.2, 41.0, 41.1, 41.2])
    ratio = (
        '=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME({c}7,$B$19,"metric"),{c}14,'
        'ENG.GASKET_VOLUME($B$22,$B$21,"metric"),ENG.DECK_VOLUME({c}7,{c}12,'
        '"metric"),$B$23,"metric")'
    )
    p.formulas_across("B15", ratio, 4, "compression_ratio", shown="0.00").across(
        "B16", "intake_lash", "mm", [0.4, 0.4, 0.41, 0.4]
    ).across("B17", "exhaust_lash", "mm", [0.45, 0.45, 0.45, 0.46])
    p.labels(
        "A19",
        "Corsa (mm)",
        "Interasse biella (mm)",
        "Guarnizione testa schiacciata (mm)",
        "Foro guarnizione (mm)",
        "Volume cielo pistone (cc), - cupola",
        "Cilindrata (cc)",
        "Gioco assiale albero (mm)",
    )
    p.fact("B19", "stroke", 78.5, "mm").fact("B20", "rod_length", 135, "mm").fact(
        "B21", "gasket_thickness", 0.8, "mm"
    ).fact("B22", "gasket_bore", 81.5, "mm").fact("B23", "crown_volume", -6.5, "cc")
    p.formula(
        "B24", '=ENG.DISPLACEMENT(B7,B19,4,"metric")', "displacement", "cc", shown="0.0"
    ).fact("B25", "crank_end_play", 0.11, "mm")
    p.heads("A27", "Banco", 1, 2, 3, 4, 5).labels("A28", "Perno banco", "Gioco banco").across(
        "B28", "main_journal", "mm", b.near(58.458, 5, 0.001, digits=3), shown="0.000"
    ).across("B29", "main_bearing_clearance", "mm", b.near(0.055, 5, 0.002, digits=3))
    p.heads("A31", "Biella", 1, 2, 3, 4).labels(
        "A32", "Perno biella", "Gioco biella", "Peso pistone (g)", "Peso spinotto (g)"
    ).across("B32", "rod_journal", "mm", b.near(49.742, 4, 0.001, digits=3), shown="0.000").across(
        "B33", "rod_bearing_clearance", "mm", b.near(0.052, 4, 0.001, digits=3)
    )
    p.across("B34", "piston_mass", "g", [342.5, 342.6, 342.4, 342.5]).across(
        "B35", "pin_mass", "g", [88.1, 88.1, 88.0, 88.1]
    ).put("A37", "coppie: testa 8,5 kgm - banco 7,5 kgm - bielle 5,2 kgm")
    p.put(
        "A38", "Ricambi: bronzine cod. 11-204/B, fasce cod. 804.12; preventivo € 2.350,00"
    ).either("A37")
    return b
