"""One call of each command that can be typed as it stands: the last line of its help."""

from types import MappingProxyType

EXAMPLES = MappingProxyType(
    {
        "check": "areafit check machines/ --format html --output dossier.html",
        "part": (
            'areafit part "Ex db IIC T4 Gb" --area "Zone 1, IIB, T3" --document "AC-014 rev B" '
            '--substance toluene --chemical none --ambient "5..40 °C" '
            '--certificate "IECEx QQQ 20.0001" --entries none --bonded --material 316L '
            "--exposure room --materials-complete --no-contacts"
        ),
        "marking": 'areafit marking "II 2G Ex db IIC T4 Gb"',
        "substance": "areafit substance toluene",
        "material": (
            'areafit material 316L --chemical "sodium hydroxide, 2 %, 60 °C" --exposure splash'
        ),
        "rule": "areafit rule gas-group",
        "table": "areafit table resistance --format csv",
        "need": "areafit need bom.yaml filling-head --exposure splash",
        "actions": "areafit actions bom.yaml --format csv",
        "compare": "areafit compare old.yaml new.yaml --format markdown",
        "loop": (
            'areafit loop --source "Uo 28 V, Io 93 mA, Po 0.65 W, Co 83 nF, Lo 4.2 mH, Um 250 V, '
            'supply 230 V" '
            '--device "Ui 30 V, Ii 100 mA, Pi 1 W, Ci 5 nF, Li 10 µH" --cable "100 m, default" '
            '--group IIC --area "Zone 1, IIC, T4" --substance hydrogen --source-area unclassified '
            '--source-marking "[Ex ia Ga] IIC" --device-marking "Ex ia IIC T4 Ga"'
        ),
        "waiver add": (
            'areafit waiver add bom.yaml --item 10 --rule gas-group --reason "vented hood" '
            '--approved-by "area owner" --until 2030-06-30 --document "DN-12 rev A" '
            "--file waivers.yaml"
        ),
        "new": "areafit new bom.yaml",
        "import": "areafit import bom.csv --code ATEX --output bom.yaml",
        "schema": "areafit schema bom",
    }
)
