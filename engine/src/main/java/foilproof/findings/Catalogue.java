package foilproof.findings;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

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

    /**
     * Checks that ask for no map of the copper: of programs, moves, depths, holes, and of foil left along the grooves. They
     * run first, so that a changed Z error or bow shows at once what it does there.
     */
    static final Set<Class<? extends Check>> WITHOUT_COPPER = Set.of(
            ProgramErrors.class,
            Units.class,
            Distance.class,
            Tools.class,
            LengthOffsets.class,
            FeedAndSpindle.class,
            Arcs.class,
            Travel.class,
            KeepOuts.class,
            Rapids.class,
            ZReference.class,
            DutyBroken.class,
            SpoilBoard.class,
            WrongBit.class,
            NotThrough.class,
            FoilLeftInGrooves.class,
            HolesAsDesigned.class,
            FloorOfGrooves.class,
            TooDeep.class,
            Plunges.class,
            DeepPass.class,
            ChipLoad.class,
            SideLoad.class,
            ToolWear.class,
            PartFree.class,
            TouchOffs.class,
            DrillWander.class,
            WorkOffsets.class,
            MachineMoves.class,
            Doglegs.class,
            SpinUp.class,
            ToolComments.class,
            CannedCycles.class,
            RadiusCompensation.class,
            OptionalLines.class,
            WastedMoves.class,
            StartState.class,
            DecimalSlip.class,
            ShankContact.class,
            TimeNotes.class,
            WorkOrder.class,
            Burning.class,
            UnsafePauses.class,
            Burrs.class,
            Checklist.class,
            TapeThenCopper.class,
            OutlineHoldsCuts.class,
            Slots.class,
            BlankLies.class,
            OutlineFit.class,
            HoldDown.class,
            Restarts.class,
            Dust.class);

    private Catalogue() {}

    /**
     * What was found while checks are still to run. What is here is found for good, but for the folding: a cause that is
     * still to be found may take it under itself.
     *
     * @param findings worst first
     * @param open the kinds that checks which are still to run may raise
     * @param left how many checks are still to run
     */
    public record Partial(List<Finding> findings, Set<String> open, int left) {
        /** Before the first check. */
        public static final Partial NOTHING = new Partial(List.of(), Set.copyOf(Kinds.ALL), CHECKS.size());

        /** Copies the collections. */
        public Partial {
            findings = List.copyOf(findings);
            open = Set.copyOf(open);
        }
    }

    /** Told of what was found so far. */
    @FunctionalInterface
    public interface Told {
        /** Nobody is told. */
        Told NOBODY = partial -> {};

        /** So much is found. */
        void found(Partial partial);
    }

    /**
     * What the checks found, layered and sorted, and what was not checked.
     *
     * @param findings worst first
     * @param notChecked in the order of the checks
     */
    public record Outcome(List<Finding> findings, List<NotChecked> notChecked) {}

    /** Runs all checks over an examination. */
    public static Outcome judge(Examination x) {
        return judge(x, Told.NOBODY);
    }

    /**
     * Runs all checks over an examination.
     *
     * @param told told when the checks without copper are through, and after each of the others
     * @throws java.util.concurrent.CancellationException where the progress cancels
     */
    public static Outcome judge(Examination x, Told told) {
        List<RunFacts> unknownTips = TipReadings.unknown(x);
        Set<String> last =
                unknownTips.isEmpty() ? Set.of(Kinds.FOIL_WEIGHT) : Set.of(Kinds.FOIL_WEIGHT, Kinds.TIP_UNKNOWN);
        FindingCollector out = all(x, told, last);
        if (!unknownTips.isEmpty()) {
            Examination round = Examiner.examineOtherReading(x.job(), x.design().read(), x.options());
            FindingCollector other = all(round, Told.NOBODY, Set.of());
            TipReadings.tell(x, unknownTips, out.findings(), other.findings(), out);
        }
        if (OtherFoil.judgesBoth(x)) {
            Examination y = Examiner.examine(OtherFoil.other(x), x.design().read(), x.options());
            FindingCollector other = all(y, Told.NOBODY, Set.of());
            OtherFoil.tell(x, out.findings(), other.findings(), out);
        } else {
            OtherFoil.note(x, out);
        }
        return new Outcome(Causes.layer(out.findings()), out.notChecked());
    }

    /**
     * What all checks find, in their order, whatever order they run in.
     *
     * @param last kinds that are judged after all checks, from what they found
     */
    private static FindingCollector all(Examination x, Told told, Set<String> last) {
        @Nullable FindingCollector[] found = new FindingCollector[CHECKS.size()];
        int left = CHECKS.size();
        for (boolean copper : new boolean[] {false, true}) {
            for (int k = 0; k < found.length; k++) {
                Check check = CHECKS.get(k);
                if (WITHOUT_COPPER.contains(check.getClass()) == copper) {
                    continue;
                }
                step(x, copper, 1 - (double) left / found.length);
                FindingCollector own = new FindingCollector();
                check.examine(x, own);
                found[k] = own;
                left--;
                if (copper) {
                    tell(found, left, told, last);
                }
            }
            if (!copper) {
                tell(found, left, told, last);
            }
        }
        return together(found);
    }

    private static void step(Examination x, boolean copper, double share) {
        String what = copper ? "judging the copper" : "checking the moves";
        if (!x.options().progress().at(what, 0.65 + 0.3 * share)) {
            throw new CancellationException("cancelled while " + what);
        }
    }

    private static void tell(@Nullable FindingCollector[] found, int left, Told told, Set<String> last) {
        if (told != Told.NOBODY) {
            Set<String> open = new HashSet<>(last);
            for (int k = 0; k < found.length; k++) {
                if (found[k] == null) {
                    open.addAll(CHECKS.get(k).kinds());
                }
            }
            told.found(new Partial(Causes.layer(together(found).findings()), open, left));
        }
    }

    private static FindingCollector together(@Nullable FindingCollector[] found) {
        FindingCollector all = new FindingCollector();
        for (@Nullable FindingCollector own : found) {
            if (own != null) {
                own.findings().forEach(all::add);
                own.notChecked().forEach(row -> all.notChecked(row.what(), row.why()));
            }
        }
        return all;
    }
}
