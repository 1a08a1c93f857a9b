"""Labels of the fields of a job that shops write in five languages, each in a small form.

That shops write so is common practice, no source.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.job_fields import read_job

WORDS: Mapping[str, Mapping[str, str]] = {
    "number": {
        "en": (
            "Shop ticket | Workshop order | Workshop job | Job bag | Traveler | Shop traveler | "
            "Service order | Sales order | Session | Dyno session"
        ),
        "de": (
            "Belegnummer | Laufnummer | Protokollnr | Protokollnummer | Referenz | Serviceauftrag "
            "| Werkauftragsnummer | Motor-nr. intern"
        ),
        "fr": "Réf. atelier | Référence atelier | Fiche atelier",
        "es": "Referencia | Referencia interna | Proyecto | Código de trabajo",
        "it": (
            "Riferimento | Rif. ns | N. interno | N. progr | Codice lavoro | Codice commessa | "
            "Cod. commessa | N. officina"
        ),
    },
    "customer": {
        "en": (
            "Owner name | Owners name | Team name | Contact name | Contact person | Customer "
            "contact | Customer full name | Last name | Full name | Client's name | "
            "Clients name | Buyer | Purchaser | End user | End customer | Hull owner | Who "
            "brought it | Who it's for | Requested by | Job for | Engine for | Motor "
            "for | Member | Member name | Consignor | Sender"
        ),
        "de": (
            "Kunden-name | Name, vorname | Vor- und zuname | Kontakt | Ansprechpartner "
            "| Mitglied | Im auftrag | Einlieferer | Käufer | Endkunde | Bauherr | Anlieferer | "
            "Angeliefert von | Reeder | Reederin"
        ),
        "fr": (
            "Nom et prénom | Nom, prénom | Interlocuteur | Pour le compte | Déposant | Envoyé par "
            "| Expéditeur | Membre | Acheteur | Client final | Appartenant à"
        ),
        "es": (
            "Nombre y apellido | Nombre y apellidos | Apellido | Apellidos | Apellido y nombre | "
            "Contacto | Persona de contacto | Enviado por | Remitente | Agricultor | Socio | "
            "Comprador"
        ),
        "it": (
            "Nome e cognome | Cognome | Cognome e nome | Società | Contatto | Referente | Persona "
            "di riferimento | Per conto | Inviato da | Socio | Acquirente | Cliente "
            "finale | Spett"
        ),
    },
    "engine": {
        "en": (
            "Engine make | Engine code | Build type | Power plant | Engine & year | Engine and "
            "year | Yr/make/model | Kind of engine | Bench engine | Test engine | Engine under "
            "test | Machine make | Veh | Block type"
        ),
        "de": (
            "Motorkennung | Motorkennbuchstabe | Mkb | Motorcode | Motor-code | Fahrzeugtyp | Kfz "
            "| Prüfmotor | Versuchsmotor | Übungsmotor | Motorfamilie | Motorbauart"
        ),
        "fr": (
            "Marque et modèle | Code moteur | Motorisation | Bloc moteur | Moteur étudié | Moteur "
            "d'essai | Moteur n° / type"
        ),
        "es": "Código motor | Código de motor | Motor de pruebas | Motor de prácticas",
        "it": "Codice motore | Imbarcazione | Motore di prova | Motore didattico",
    },
    "builder": {
        "en": (
            "Bench tech | Builder initials | Initials of builder | Inits | Checked & built by | "
            "Checked and built by | Group members | Candidate name | Learner | "
            "Learner name | Apprentice name | Intern | Journeyman | Person responsible | "
            "Responsible person | Employee | Worker | Builder name | Assembly tech | Bottom end "
            "by | Short block by | Short block assembled by | Completed by | Performed by | "
            "Recorded by | Torqued by | Readings by | Measurements by | Taken by | Allocated to | "
            "Assigned | Tech #"
        ),
        "de": (
            "Auszubildende | Schülerin | Name schüler | Prüfling | Teilnehmer | Studenten | "
            "Studierende | Verantwortlich | Verantwortlicher | Vermessen von | Messung durch | "
            "Name mechaniker | Erfasst von | Aufgenommen von"
        ),
        "fr": (
            "Élèves | Noms des élèves | Étudiant | Étudiants | Mesures par | Relevé par | Rempli "
            "par | Équipe de montage | Machiniste | Usineur"
        ),
        "es": (
            "Alumnos | Estudiante | Estudiantes | Integrantes | Mediciones por | Tomado por | "
            "Rellenado por | Trabajador | Empleado | Jefe de taller | Lo lleva | Lo trabajó"
        ),
        "it": (
            "Allievi | Alunni | Studenti | Nome allievo | Misure di | Rilievi di | Compilato da | "
            "Dipendente"
        ),
    },
    "started": {
        "en": (
            "Intake date | Work order date | Job date | Disassembly date | Begin | Begin date | "
            "Build start | Assembly started | Assembly start | Created | Date created | Job "
            "created | Log date | Engine removed | Date removed | Removal date"
        ),
        "de": "Auftrag vom | Beginndatum | Angelegt am | Aufnahmedatum | Abgabe kunde",
        "fr": (
            "Réceptionné | Débuté le | Date or | Créé le | Mise en chantier | Lancement | Date de "
            "lancement"
        ),
        "es": (
            "Abierta el | Fecha de orden | Fecha orden | Fecha ot | Fecha de admisión | Fecha de "
            "alta | Creado el"
        ),
        "it": (
            "Data ricezione | Ricezione | Data commessa | Creato il | Consegnato in officina | "
            "Data avvio | Stacco motore | Smontato dal telaio"
        ),
    },
    "finished": {
        "en": (
            "Return date | Sign-off | Signoff | Reinstalled | Assembly date | Build date | Date "
            "built | Built on | Submitted | Submitted on | Date submitted | Delivered to customer "
            "| Race ready | Assembly finished | Delivery date | Built | Last pull"
        ),
        "de": (
            "Fertigst. am | Auslieferdatum | Lieferdatum | Übergabedatum | Enddatum | "
            "Rückgabedatum | Montagedatum | Prüflauf | Erststart | Einbaudatum | Freigabe | "
            "Abgabedatum | Abnahmedatum | Versand | Versendet am"
        ),
        "fr": "Date de remontage | Remontage le | Date de remise | Expédition | Validé le",
        "es": (
            "Cerrada el | Devolución | Fecha de devolución | Armado el | Fecha de armado | Fecha "
            "de montaje | Fecha de envío"
        ),
        "it": (
            "Completamento | Data completamento | Chiusa il | Restituzione | Data montaggio | "
            "Rimontaggio | Data prova | Evaso il"
        ),
    },
}
# The other labels of the form: the number, the customer, the engine, the builder and two days.
FORMS = {
    "en": ["Job", "Customer", "Engine", "Builder", "Started", "Finished"],
    "de": ["Auftrag", "Kunde", "Motor", "Monteur", "Eingang", "Fertig am"],
    "fr": ["Dossier", "Client", "Moteur", "Mécanicien", "Reçu le", "Terminé le"],
    "es": ["Orden", "Cliente", "Motor", "Mecánico", "Fecha de entrada", "Fecha de salida"],
    "it": ["Commessa", "Cliente", "Motore", "Meccanico", "Data entrata", "Data uscita"],
}
FIELDS = ["number", "customer", "engine", "builder", "started", "finished"]
DAYS = [datetime.datetime(2024, 3, 4), datetime.datetime(2024, 4, 9)]
SAID = ["26-041", "Hugo Fane", "Falke flat four 1700", "Ida Lund", *DAYS]
TEXTS = [*SAID[:4], "2024-03-04", "2024-04-09"]
SIZES: Rows = [[], ["Cyl", "Bore (mm)"], [1, 93.01], [2, 93.02]]


def read_form(make_book: Callable[..., Path], labels: list[str], *, paired: bool) -> list[str]:
    """The fields of a form with these labels: one below the other, or two a row."""
    cells = [[label, said] for label, said in zip(labels, SAID, strict=True)]
    if paired:
        cells = [[*a, None, *b] for a, b in zip(cells[::2], cells[1::2], strict=True)]
    job = read_job(read_cells(make_book({"Sheet1": [*cells, *SIZES]})))
    return [getattr(job, name).text for name in FIELDS]


@pytest.mark.parametrize("paired", [False, True], ids=["down", "two a row"])
@pytest.mark.parametrize(("name", "words"), WORDS.items())
def test_each_label_names_its_field(
    make_book: Callable[..., Path], name: str, words: Mapping[str, str], paired: bool
) -> None:
    not_read = []
    for language, listed in words.items():
        for label in listed.split(" | "):
            labels = list(FORMS[language])
            labels[FIELDS.index(name)] = label
            if read_form(make_book, labels, paired=paired) != TEXTS:
                not_read.append(label)
    assert not_read == []


def test_the_number_of_a_technician_is_not_that_of_the_job(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["Customer", "Hugo Fane"], ["Tech #", "T-12"], ["Engine", "Falke 125"]]
    job = read_job(read_cells(make_book({"Sheet1": [*map(list, [*rows, *SIZES])]})))
    assert job.number.text == ""
