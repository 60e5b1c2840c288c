"""All models, by noun."""

from bluewright.journal.models.airing import Airing
from bluewright.journal.models.alkali import Alkali, AlkaliPart, JarStep, JarTest
from bluewright.journal.models.assay import Assay
from bluewright.journal.models.batch import Batch, LiquorLook, Poured
from bluewright.journal.models.bed import Bed
from bluewright.journal.models.bed_look import BedLook
from bluewright.journal.models.bed_past import BedPast
from bluewright.journal.models.card import Card, CardRegistration
from bluewright.journal.models.drying import Drying, Weighing
from bluewright.journal.models.garden import AirTemp, Garden
from bluewright.journal.models.intake import Intake, TubTemp
from bluewright.journal.models.jar import Jar, JarFrom, JarTaken, YieldSeen
from bluewright.journal.models.kept import Change, Kept
from bluewright.journal.models.kit import KitItem
from bluewright.journal.models.ladder import Ladder, LadderDip, LadderRung
from bluewright.journal.models.law_check import LawCheck
from bluewright.journal.models.left_out import LeftOut
from bluewright.journal.models.measured import JarLook, Measured
from bluewright.journal.models.others_taught import OthersTaught
from bluewright.journal.models.person import DoorTry, Person
from bluewright.journal.models.photo import Photo
from bluewright.journal.models.picking import PickedFrom, Picking
from bluewright.journal.models.piece import Dip, HomeTest, Piece
from bluewright.journal.models.plan_basis import PlanBasis
from bluewright.journal.models.schedule import DaysAway, Limits, Schedule
from bluewright.journal.models.sent import Sent
from bluewright.journal.models.standing import EdgeReading, Standing
from bluewright.journal.models.station_day import StationDay
from bluewright.journal.models.steep import CallSeen, Reading, Steep, SteepLeaf, Strain
from bluewright.journal.models.supply import Supply
from bluewright.journal.models.swatch import Swatch
from bluewright.journal.models.trial import Trial, TrialTub
from bluewright.journal.models.vat import Vat, VatAddition, VatPoured, VatReading
from bluewright.journal.models.want import Want
from bluewright.journal.models.water import RainDay, WaterNote
from bluewright.journal.models.work import WorkNote

__all__ = [
    "AirTemp",
    "Airing",
    "Alkali",
    "AlkaliPart",
    "Assay",
    "Batch",
    "Bed",
    "BedLook",
    "BedPast",
    "CallSeen",
    "Card",
    "CardRegistration",
    "Change",
    "DaysAway",
    "Dip",
    "DoorTry",
    "Drying",
    "EdgeReading",
    "Garden",
    "HomeTest",
    "Intake",
    "Jar",
    "JarFrom",
    "JarLook",
    "JarStep",
    "JarTaken",
    "JarTest",
    "Kept",
    "KitItem",
    "Ladder",
    "LadderDip",
    "LadderRung",
    "LawCheck",
    "LeftOut",
    "Limits",
    "LiquorLook",
    "Measured",
    "OthersTaught",
    "Person",
    "Photo",
    "PickedFrom",
    "Picking",
    "Piece",
    "PlanBasis",
    "Poured",
    "RainDay",
    "Reading",
    "Schedule",
    "Sent",
    "Standing",
    "StationDay",
    "Steep",
    "SteepLeaf",
    "Strain",
    "Supply",
    "Swatch",
    "Trial",
    "TrialTub",
    "TubTemp",
    "Vat",
    "VatAddition",
    "VatPoured",
    "VatReading",
    "Want",
    "WaterNote",
    "Weighing",
    "WorkNote",
    "YieldSeen",
]
