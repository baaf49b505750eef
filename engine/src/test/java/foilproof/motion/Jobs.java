package foilproof.motion;

import foilproof.bench.Blank;
import foilproof.bench.Duty;
import foilproof.bench.Face;
import foilproof.bench.Hold;
import foilproof.bench.Job;
import foilproof.bench.Limits;
import foilproof.bench.Machine;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.SpoilBoard;
import foilproof.bench.Spread;
import foilproof.bench.Substrate;
import foilproof.bench.Surface;
import foilproof.bench.Tool;
import foilproof.bench.Turn;
import foilproof.bench.WhatIf;
import foilproof.bench.XyMm;
import foilproof.bench.XyzMm;
import foilproof.bench.ZZero;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** Small jobs for the tests of this package: a 60 x 40 x 1.5 mm blank, two tools, whatever else a test says. */
final class Jobs {
    static final Tool ENGRAVER = Tool.vFlatTip("engraver", 1, Math.PI / 6, 0.1, Duty.COPPER_ONLY);
    static final Tool CUTTER = Tool.flat("cutter", 2, 0.79375, Duty.ANY);

    Machine.OnToolChange onToolChange = Machine.OnToolChange.STOP;
    Machine.Dwell dwell = Machine.Dwell.SECONDS;
    Machine.Units units = Machine.Units.UNKNOWN;
    Machine.Language language = Machine.Language.COMMON;

    @Nullable
    XyzMm blankAt;

    double acceleration = 250;
    OptionalDouble maxFeed = OptionalDouble.of(1200);
    Map<Integer, String> inCollet = Map.of();
    List<Tool> tools = new ArrayList<>(List.of(ENGRAVER, CUTTER));
    private final List<Side> sides = new ArrayList<>();
    private List<ProgramEntry> programs = new ArrayList<>();

    static Jobs job() {
        return new Jobs();
    }

    static Tool withLength(Tool t, double lengthMm) {
        return new Tool(
                t.name(),
                t.number(),
                t.shape(),
                t.diameterMm(),
                t.includedAngleRad(),
                t.tipWidthMm(),
                t.tipRadiusMm(),
                t.shankMm(),
                t.flutes(),
                t.fluteLengthMm(),
                t.stickOutMm(),
                t.runoutMm(),
                t.centreCutting(),
                OptionalDouble.of(lengthMm),
                t.duty());
    }

    Jobs on(Machine.OnToolChange what) {
        onToolChange = what;
        return this;
    }

    Jobs program(String text) {
        return program(text, null, true);
    }

    Jobs program(String text, @Nullable String tool, boolean retouch) {
        return program(text, tool, retouch, new XyMm(2, 2), ZZero.FOIL);
    }

    Jobs program(String text, @Nullable String tool, boolean retouch, XyMm workZero, ZZero zero) {
        String name = "p" + (programs.size() + 1) + ".ngc";
        programs.add(
                new ProgramEntry(SourceFile.ofText(name, text), tool, null, workZero, zero, new XyMm(2, 38), retouch));
        return this;
    }

    Jobs nextSide() {
        int number = sides.size() + 1;
        sides.add(new Side(
                number,
                number == 1 ? Face.BOTTOM : Face.TOP,
                number == 1 ? Turn.NO : Turn.ABOUT_Y,
                new XyMm(2, 2),
                ZZero.FOIL,
                new XyMm(2, 38),
                null,
                true,
                List.of(),
                Surface.FLAT,
                Hold.FULL_TAPE,
                0.1,
                programs));
        programs = new ArrayList<>();
        return this;
    }

    Job build() {
        if (!programs.isEmpty()) {
            nextSide();
        }
        Machine machine = new Machine(
                new XyzMm(160, 100, 45),
                blankAt,
                language,
                units,
                dwell,
                false,
                onToolChange,
                false,
                0.01,
                maxFeed,
                new Machine.AxisFeeds(2500, 2500, 1000),
                acceleration,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                XyMm.ZERO,
                0.02,
                null,
                120,
                true);
        Blank blank = new Blank(
                Substrate.FR_1,
                1.5,
                true,
                Blank.HALF_OUNCE_MM,
                true,
                false,
                60,
                40,
                true,
                Hold.FULL_TAPE,
                0.1,
                Surface.FLAT);
        return new Job(
                "test",
                "job.toml",
                blank,
                new SpoilBoard(OptionalDouble.of(6)),
                machine,
                new Spread(0.03, 0.05, null, Map.of(), 0.05),
                tools,
                sides,
                List.of(),
                null,
                List.of(),
                List.of(),
                Limits.DEFAULT,
                new WhatIf(Map.of(), 0, inCollet),
                List.of(),
                List.of());
    }

    MotionPlan plan() {
        return MotionPlanner.plan(build());
    }
}
