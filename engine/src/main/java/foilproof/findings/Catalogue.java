package foilproof.findings;

import java.util.List;

/** All checks, in the order in which they run; their order decides nothing but the order of equals. */
public final class Catalogue {
    /** The checks. */
    public static final List<Check> CHECKS = List.of(
            new ProgramErrors(),
            new Units(),
            new Distance(),
            new Tools(),
            new LengthOffsets(),
            new FeedAndSpindle(),
            new Arcs(),
            new Travel(),
            new KeepOuts(),
            new Rapids(),
            new ZReference(),
            new DutyBroken(),
            new SpoilBoard(),
            new WrongBit(),
            new NotThrough(),
            new FoilLeftInGrooves(),
            new ThinMargins(),
            new NetsWholeAndApart(),
            new NetsElectrical(),
            new NetlistDiffers(),
            new SuspectedBridges(),
            new HolesAsDesigned(),
            new SeveredCopper(),
            new Rings(),
            new PlaceOfDesign(),
            new StrayCopper(),
            new ThinCopper(),
            new SetUpWalls(),
            new Blending(),
            new FloorOfGrooves(),
            new ClearedAreas(),
            new Lands(),
            new TooDeep(),
            new Plunges(),
            new DeepPass(),
            new ChipLoad(),
            new SideLoad(),
            new ToolWear(),
            new PartFree(),
            new TouchOffs(),
            new DrillWander(),
            new WorkOffsets(),
            new MachineMoves(),
            new Doglegs(),
            new SpinUp(),
            new ToolComments(),
            new CannedCycles(),
            new RadiusCompensation(),
            new OptionalLines(),
            new WastedMoves(),
            new StartState(),
            new DecimalSlip(),
            new ShankContact(),
            new TimeNotes(),
            new WorkOrder(),
            new Burning(),
            new UnsafePauses(),
            new Burrs(),
            new Checklist(),
            new TapeThenCopper(),
            new OpenLoops(),
            new BoresOnRings(),
            new OutlineHoldsCuts(),
            new Slots(),
            new BoreDetails(),
            new RegistrationBudget(),
            new BlankEdge(),
            new BlankThickness(),
            new GapNotes(),
            new BlankLies(),
            new OutlineFit(),
            new OutlineAndCopper(),
            new HoldDown(),
            new WorkLists(),
            new Restarts(),
            new Dust());

    private Catalogue() {}

    /**
     * What the checks found, layered and sorted, and what was not checked.
     *
     * @param findings worst first
     * @param notChecked in the order of the checks
     */
    public record Outcome(List<Finding> findings, List<NotChecked> notChecked) {}

    /** Runs all checks over an examination. */
    public static Outcome judge(Examination x) {
        FindingCollector out = new FindingCollector();
        for (Check check : CHECKS) {
            check.examine(x, out);
        }
        List<RunFacts> unknownTips = TipReadings.unknown(x);
        if (!unknownTips.isEmpty()) {
            FindingCollector other = new FindingCollector();
            Examination round = Examiner.examineOtherReading(x.job(), x.design().read(), x.options());
            for (Check check : CHECKS) {
                check.examine(round, other);
            }
            TipReadings.tell(x, unknownTips, out.findings(), other.findings(), out);
        }
        if (OtherFoil.judgesBoth(x)) {
            FindingCollector other = new FindingCollector();
            Examination y = Examiner.examine(OtherFoil.other(x), x.design().read(), x.options());
            for (Check check : CHECKS) {
                check.examine(y, other);
            }
            OtherFoil.tell(x, out.findings(), other.findings(), out);
        } else {
            OtherFoil.note(x, out);
        }
        return new Outcome(Causes.layer(out.findings()), out.notChecked());
    }
}
