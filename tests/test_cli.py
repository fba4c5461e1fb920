import json
import re
import shutil

import pytest

from cardgen.cli import main
from tests.conftest import DEMO


def reckon(*arguments: str) -> int:
    return main(["reckon", "--definitions", str(DEMO), *arguments])


def test_reckon_prints_each_step_with_its_reason(capsys):
    case = "ZZ-WHB --ias 120 --altitude 5500 --qnh 30.10 --oat 12 --wind 240/18 --course 280"
    assert reckon(*case.split()) == 0
    said = capsys.readouterr().out
    for line in (
        r"IAS +120.0 kt +given",
        r"Instrument correction +\+2.0 kt +bench card",
        r"Position error correction +−1.1 kt +calibration table, flaps 0, .*page 5-8",
        r"CAS +120.9 kt",
        r"Compressibility correction +−0.1 kt",
        r"Density correction +\+\d+.\d kt",
        r"TAS +\d+.\d kt",
        r"Headwind +13.8 kt",
        r"Heading +27\d°",
        r"Ground speed +\d+.\d kt",
        r"verify against the approved flight manual",
    ):
        assert re.search(line, said), line


def test_reckon_as_json_has_the_agreed_keys(capsys):
    assert (
        reckon("ZZ-DUA", "--tas", "130", "--pressure-altitude", "6000", "--isa", "10", "--json")
        == 0
    )
    answer = json.loads(capsys.readouterr().out)
    assert set(answer) == {
        *[
            "indicated_airspeed",
            "instrument_correction",
            "calibrated_airspeed",
            "equivalent_airspeed",
            "mach",
            "true_airspeed",
            "pressure_altitude",
            "isa_deviation",
            "density_altitude",
            "headwind",
            "crosswind",
            "heading",
            "ground_speed",
            "load_factor",
            "stall_speed",
            "stall_calibrated",
            "stall_margin",
            "units",
            "notes",
            "registration",
            "mark",
            "steps",
            "limits",
        ]
    }
    assert answer["units"] == {
        "speed": "mph",
        "altitude": "ft",
        "temperature": "C",
        "angle": "deg",
        "wind": "kt",
    }
    assert answer["registration"] == "ZZ-DUA"
    assert re.fullmatch(r"[0-9A-F]{4}-[0-9A-F]{4}", answer["mark"])
    position = next(step for step in answer["steps"] if step["step"] == "position")
    assert position["formula"] == "indicated-from-calibrated"
    assert position["page"] == "5-7"
    assert "÷" in position["working"]
    assert answer["isa_deviation"] == pytest.approx(10)
    assert answer["ground_speed"] is None


@pytest.mark.parametrize(
    ("wind", "taken", "headwind"),
    [
        ("240/18", "18.0 kt", "20.7 mph"),
        ("240/18kt", "18.0 kt", "20.7 mph"),
        ("240/20mph", "17.4 kt", "20.0 mph"),
        ("240/30km/h", "16.2 kt", "18.6 mph"),
    ],
)
def test_a_wind_is_in_knots_unless_its_unit_is_written(capsys, wind, taken, headwind):
    """On a course of 240 degrees all of it is headwind; 1 kt is 1.852 km/h, 1 mph 1.609344 km/h."""
    case = f"ZZ-DUA --ias 100 --pressure-altitude 0 --oat 15 --wind {wind} --course 240"
    assert reckon(*case.split()) == 0
    said = capsys.readouterr().out
    assert re.search(rf"Wind +{taken} +from 240°", said)
    assert re.search(rf"Headwind +{headwind}", said)
    assert reckon(*case.split(), "--json") == 0
    answer = json.loads(capsys.readouterr().out)
    step = next(one for one in answer["steps"] if one["step"] == "wind")
    assert f"{step['value']:.1f} {step['unit']}" == taken


@pytest.mark.parametrize(
    "wrong",
    [
        *[
            f"{option} {number}"
            for number in ("inf", "-inf", "nan", "1e3", "0x10")
            for option in (
                "--ias",
                "--cas",
                "--tas",
                "--ias 90 --oat",
                "--ias 90 --isa",
                "--ias 90 --course",
                "--ias 90 --pressure-altitude",
                "--ias 90 --qnh",
                "--ias 90 --altitude",
            )
        ],
        "--ias -5",
        "--ias 5000",
        "--ias 90 --course 400",
        "--ias 90 --altitude 4000 --qnh 500",
        "--ias 1e2",
        "--ias ９０",
        "--ias 6,00",
    ],
)
def test_numbers_that_mean_nothing_are_refused(capsys, wrong):
    with pytest.raises(SystemExit) as caught:
        reckon("ZZ-DUA", *wrong.split())
    assert caught.value.code == 2
    assert "expected" in capsys.readouterr().err


def test_a_number_that_is_none_is_refused(capsys):
    for option in ("--ias", "--weight", "--pressure-altitude"):
        with pytest.raises(SystemExit) as ended:
            main(["reckon", "ZZ-DUA", option, "9" * 400])
        assert ended.value.code == 2
        assert "expected a number" in capsys.readouterr().err


def test_six_thousand_may_have_its_comma(capsys):
    answers = []
    for altitude in ("6,000", "6000"):
        case = f"ZZ-DUA --ias 100 --pressure-altitude {altitude} --oat 3"
        assert reckon(*case.split()) == 0
        answers.append(capsys.readouterr().out)
    assert answers[0] == answers[1]


def test_limits_that_the_case_passes_are_said(capsys):
    assert reckon("ZZ-DUA", "--ias", "180", "--json") == 0
    limits = json.loads(capsys.readouterr().out)["limits"]
    assert [(one["limit"], one["binding"]) for one in limits] == [
        ("VNE", True),
        ("VNO", False),
        ("VA", False),
        ("storm window", False),
    ]
    assert reckon("ZZ-DUA", "--ias", "180") == 0
    assert "Above VNE, 173 mph: never to be exceeded." in capsys.readouterr().out


@pytest.mark.parametrize(
    "case",
    [
        "--ias 100 --pressure-altitude 0 --oat 15 --wind 0/0 --course 0",
        "--ias -0 --pressure-altitude -0 --isa -0 --wind 180/0 --course 360",
        "--cas -0 --pressure-altitude -0.4 --isa -0.04",
        "--tas -0.0 --pressure-altitude 0 --oat -0",
        "--ias 100 --pressure-altitude 0 --oat 15 --wind 180/20 --course 90",
        "--ias 100 --altitude -0 --qnh 1013.25 --oat 15 --wind 360/20 --course 180",
    ],
)
def test_no_zero_is_negative(capsys, case):
    assert reckon("ZZ-DUA", *case.split()) == 0
    assert not re.search(r"[−-]0(\.0+)?(?![\d.])", capsys.readouterr().out)
    assert reckon("ZZ-DUA", *case.split(), "--json") == 0
    assert not re.search(r"-0(\.0+)?(?![\d.])(?!e)", capsys.readouterr().out)


def test_a_correction_of_nothing_has_one_sign(capsys):
    """A little below standard temperature takes a little off, which is nothing to a tenth."""
    assert reckon(*["ZZ-DUA", "--ias", "90", "--pressure-altitude", "0", "--isa", "-0.04"]) == 0
    assert re.search(r"Density correction +\+0\.0 mph", capsys.readouterr().out)


@pytest.mark.parametrize("course", ["0", "360"])
def test_north_is_360_degrees(capsys, course):
    case = f"ZZ-DUA --ias 90 --pressure-altitude 0 --oat 15 --wind {course}/10 --course {course}"
    assert reckon(*case.split()) == 0
    said = capsys.readouterr().out
    assert re.search(r"Wind +10.0 kt +from 360°", said)
    assert re.search(r"Heading +360°", said)


@pytest.mark.parametrize("known", ["--ias 100", "--cas 100", "--tas 120"])
@pytest.mark.parametrize("registration", ["ZZ-DUB", "ZZ-DUC", "ZZ-PHN"])
def test_each_step_as_json_says_its_formula_and_its_page(capsys, registration, known):
    """Pages are those of the YAML: of the bench card, and of the calibration table."""
    case = f"{known} --pressure-altitude 6000 --oat 3 --wind 240/18 --course 280 --json"
    assert reckon(registration, *case.split()) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["registration"] == registration
    card = DEMO.parent / "site" / registration / "card.json"
    assert answer["mark"] == json.loads(card.read_text("utf-8"))["marks"]["card"]
    back = "calibrated-airspeed" if known.startswith("--ias") else "indicated-from-calibrated"
    bench = registration == "ZZ-DUB"
    table = {"ZZ-DUB": "5-7", "ZZ-DUC": "5-7", "ZZ-PHN": "5-12"}[registration]
    assert [(one["step"], one["formula"], one["page"]) for one in answer["steps"]] == [
        ("indicated", "", ""),
        ("instrument", "correction" if bench else "", "bench card" if bench else ""),
        ("position", back, table),
        ("cas", "", ""),
        ("compressibility", "true-airspeed", ""),
        ("eas", "", ""),
        ("density", "true-airspeed", ""),
        ("tas", "", ""),
        ("wind", "", ""),
        ("headwind", "wind-components", ""),
        ("crosswind", "wind-components", ""),
        ("heading", "ground-speed", ""),
        ("ground-speed", "ground-speed", ""),
    ]


@pytest.mark.parametrize("setting", ["29.92", "1013.25"])
def test_the_altimeter_setting_is_inches_or_hectopascals(capsys, setting):
    assert (
        reckon(
            "ZZ-DUA", "--ias", "90", "--altitude", "4000", "--qnh", setting, "--oat", "5", "--json"
        )
        == 0
    )
    answer = json.loads(capsys.readouterr().out)
    assert answer["pressure_altitude"] == pytest.approx(4000, abs=5)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ("ZZ-DUX --ias 90", "no aircraft ZZ-DUX, expected one of .*did you mean"),
        ("ZZ-DUA --ias 90 --flaps 20", "--flaps 20: expected one of 0, 10, 35"),
        ("ZZ-DUA --tas 120", "--tas needs an altitude"),
        ("ZZ-DUA --ias 90 --altitude 4000", "--altitude and --qnh go together"),
        ("ZZ-DUA --ias 90 --wind 240/18", "--wind and --course go together"),
        ("ZZ-DUA --ias 90 --wind 240 --course 90", "expected direction/speed"),
        ("ZZ-DUA --ias 90 --isa 10", "--isa needs an altitude"),
        ("ZZ-DUA --ias 90 --pressure-altitude 99000", "is above 20000 m"),
        ("ZZ-DUA --ias 90 --pressure-altitude 0 --oat -300", "expected air from -100 to 60 °C"),
        ("ZZ-DUA --ias 90 --pressure-altitude 0 --oat 61", "--oat 61: expected air from -100"),
        ("ZZ-DUA --ias 90 --pressure-altitude 0 --isa 60", "--isa 60: expected air from -100"),
        ("ZZ-DUA --ias 90 --pressure-altitude -20000 --oat 15", "is below -5000 m"),
        ("ZZ-DUA --cas 900 --pressure-altitude 0 --oat 15", "is not below 340.294 m/s"),
        ("ZZ-DUA --tas 900 --pressure-altitude 0 --oat 15", "Mach number .* is not below 1"),
        ("ZZ-DUA --ias 90 --wind nan/20 --course 90", "expected direction/speed"),
        ("ZZ-DUA --ias 90 --wind 240/inf --course 90", "expected direction/speed"),
        ("ZZ-DUA --ias 90 --wind 240/301 --course 90", "expected direction/speed"),
        ("ZZ-DUA --ias 90 --wind 361/20 --course 90", "expected direction/speed"),
        ("ZZ-DUA --ias 90 --wind 240/20ms --course 90", "expected direction/speed"),
    ],
)
def test_a_wrong_command_line_exits_2_and_says_what_was_expected(capsys, arguments, said):
    assert reckon(*arguments.split()) == 2
    assert re.search(said, capsys.readouterr().err)


@pytest.mark.parametrize(
    "arguments", ["reckon ZZ-DUA", "reckon ZZ-DUA --ias 1 --cas 2", "", "bild"]
)
def test_argparse_exits_2_too(arguments):
    with pytest.raises(SystemExit) as caught:
        main(arguments.split())
    assert caught.value.code == 2


def test_a_faulty_definition_exits_1_with_every_fault_and_writes_nothing(
    definitions, tmp_path, capsys
):
    path = definitions / "types/dunlin-160.yaml"
    path.write_text(path.read_text().replace("VNE:", "VNEE:").replace("crosswind:", "crosswinds:"))
    assert main(["build", str(definitions), "--out", str(tmp_path / "site")]) == 1
    said = capsys.readouterr().err
    assert re.search(rf"{re.escape(str(path))}:\d+:3: error: unknown speed VNEE", said)
    assert "crosswinds" in said
    assert "2 errors; nothing was written" in said
    assert not (tmp_path / "site").exists()


def test_a_full_disk_or_missing_library_exits_3(definitions, tmp_path, capsys, monkeypatch):
    from cardgen.render.pdf import PdfError

    def fails(*_, **__):
        raise PdfError("Pango is missing; apt-get install libpango-1.0-0")

    monkeypatch.setattr("cardgen.commands.build.build", fails)
    assert main(["build", str(definitions), "--out", str(tmp_path / "site")]) == 3
    assert "apt-get install" in capsys.readouterr().err


def test_another_folder_is_not_overwritten(tmp_path, capsys):
    shutil.copy(DEMO / "school.yaml", tmp_path)
    assert main(["build", str(DEMO), "--out", str(tmp_path)]) == 2
    assert "not a site that cardgen built" in capsys.readouterr().err


def test_start_school_needs_no_name_and_the_others_do(tmp_path, capsys):
    at = ["--definitions", str(tmp_path)]
    assert main(["start", "school", *at]) == 0
    assert main(["start", "school", *at]) == 2
    assert "school.yaml is there already; nothing was written" in capsys.readouterr().err
    assert main(["start", "airframe", *at]) == 2
    assert "start airframe needs a name" in capsys.readouterr().err
