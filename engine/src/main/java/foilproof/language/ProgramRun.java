package foilproof.language;

import foilproof.source.SourceFile;
import java.util.List;

/** One run of one program (being built: runs nothing yet). */
final class ProgramRun {
    private final SourceFile source;
    private final InterpreterSetup setup;

    ProgramRun(SourceFile source, InterpreterSetup setup) {
        this.source = source;
        this.setup = setup;
    }

    Interpretation run() {
        ModalState initial = new ModalState(
                800,
                setup.initialUnits(),
                false,
                false,
                Plane.XY,
                FeedMode.UNITS_PER_MINUTE,
                Double.NaN,
                SpindleTurn.STOPPED,
                Double.NaN,
                setup.initialTool(),
                -1,
                1,
                CutterComp.OFF,
                -1,
                0,
                0,
                PathMode.UNSET,
                Double.NaN,
                true,
                false,
                false,
                true,
                false);
        CanonicalProgram commands =
                new CanonicalProgram(source.name(), setup.startMm(0), setup.startMm(1), setup.startMm(2), 16);
        return new Interpretation(
                source, commands, List.of(), List.of(), new ModalTrace(initial), Interpretation.End.FILE_END, 0);
    }
}
