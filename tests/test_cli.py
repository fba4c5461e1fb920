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
        r"Indicated +120.0 kt +given",
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
    ("wind", "knots"), [("270/20", "20.0 kt"), ("270/20kt", "20.0 kt"), ("270/23mph", "20.0 kt")]
)
def test_a_wind_is_in_knots_unless_its_unit_is_written(capsys, wind, knots):
    """23 mph are 19.99 kt; on a course of 270 degrees all of it is headwind, 23 mph."""
    case = f"ZZ-DUA --ias 100 --pressure-altitude 0 --oat 15 --wind {wind} --course 270"
    assert reckon(*case.split()) == 0
    said = capsys.readouterr().out
    assert re.search(rf"Wind +{knots} +from 270°", said)
    assert re.search(r"Headwind +23.0 mph", said)


@pytest.mark.parametrize(
    "wrong",
    [
        "--ias inf",
        "--ias nan",
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
    ]
    assert reckon("ZZ-DUA", "--ias", "180") == 0
    assert "Above VNE, 173 mph: never to be exceeded." in capsys.readouterr().out


def test_no_zero_is_negative(capsys):
    case = "ZZ-DUA --ias 100 --pressure-altitude 0 --oat 15 --wind 0/0 --course 0"
    assert reckon(*case.split()) == 0
    assert "−0.0 " not in capsys.readouterr().out


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
        ("ZZ-DUA --ias 90 --pressure-altitude 0 --oat -300", "air temperature .* is not above 0 K"),
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
    assert "3 errors; nothing was written" in said
    assert not (tmp_path / "site").exists()


def test_a_full_disk_or_missing_library_exits_3(definitions, tmp_path, capsys, monkeypatch):
    from cardgen.render.pdf import PdfError

    def fails(*_):
        raise PdfError("Pango is missing; apt-get install libpango-1.0-0")

    monkeypatch.setattr("cardgen.cli.build", fails)
    assert main(["build", str(definitions), "--out", str(tmp_path / "site")]) == 3
    assert "apt-get install" in capsys.readouterr().err


def test_another_folder_is_not_overwritten(tmp_path, capsys):
    shutil.copy(DEMO / "school.yaml", tmp_path)
    assert main(["build", str(DEMO), "--out", str(tmp_path)]) == 2
    assert "not a site that cardgen built" in capsys.readouterr().err
