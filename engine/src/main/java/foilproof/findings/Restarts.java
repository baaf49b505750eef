package foilproof.findings;

import foilproof.motion.PlannedProgram;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A restart in mid-program (L5), judged where somebody asks for one: the way to where the line begins must meet no
 * material, and nothing that the line needs may come from the lines before it.
 */
final class Restarts implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.RAPID_IN_MATERIAL);
    }

    @Override
    public List<String> needsRows() {
        return List.of("L5");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        ExamineOptions.Restart asked = x.options().restart();
        if (asked == null) {
            return;
        }
        RestartCard card = card(x);
        if (card == null) {
            out.notChecked(
                    "the restart of " + asked.program() + " at line " + asked.line(),
                    "no program of that name moves at or after that line");
            return;
        }
        card.problems().forEach(out::add);
    }

    /** The card that was asked for; null where none was, or where nothing moves at or after that line. */
    static @Nullable RestartCard card(Examination x) {
        ExamineOptions.Restart asked = x.options().restart();
        if (asked == null) {
            return null;
        }
        for (PlannedProgram program : x.plan().programs()) {
            if (program.file().equals(asked.program())) {
                return RestartCard.of(x, program, asked.line(), !asked.freshBlank());
            }
        }
        return null;
    }
}
