package foilproof.language;

import foilproof.source.Diagnostic;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** One run of one program: finds its lines, hands them to reader and runner, keeps the trace, words the errors. */
final class ProgramRun {
    private static final int SHOWN_CHARS = 160;

    private final SourceFile source;
    private final InterpreterSetup setup;
    private final InputLimits limits;
    private final byte[] bytes;
    private final Controller controller;
    private final PlainMoves plainMoves;
    private final BlockReader reader;
    private final BlockRunner runner;
    private final Block block = new Block();
    private final ModalTrace trace;
    private final List<Diagnostic> errors = new ArrayList<>();

    private int line;
    private int lineStart;
    private int lineEnd;
    private boolean percentOpen;
    private boolean anyBlock;

    ProgramRun(SourceFile source, InterpreterSetup setup) {
        this.source = source;
        this.setup = setup;
        this.limits = setup.limits();
        this.bytes = source.size() > limits.fileBytes() ? new byte[0] : source.bytes();
        // Some 40 bytes a move where blocks are long, 12 where they are short: guess high, the rest is never touched.
        this.controller = new Controller(setup, source.name(), Math.min(bytes.length / 16, limits.motions()) + 64);
        this.plainMoves = new PlainMoves(bytes, controller);
        this.reader = new BlockReader(bytes, setup.dialect(), limits, controller.parameters);
        this.runner = new BlockRunner(controller);
        this.trace = new ModalTrace(controller.snapshot());
    }

    Interpretation run() {
        Interpretation.End end;
        Diagnostic unreadable = unreadable();
        if (unreadable != null) {
            errors.add(unreadable);
            end = Interpretation.End.ERROR;
        } else {
            try {
                end = lines();
            } catch (ProgramException e) {
                errors.add(diagnostic(e));
                end = Interpretation.End.ERROR;
                if (lineEnd == bytes.length) {
                    controller.notes.add(
                            NoteKind.LAST_LINE_CUT,
                            line,
                            1 << 16 | 1,
                            Double.NaN,
                            "the last line has no line end: the file may have been cut");
                }
            }
        }
        if (controller.stateChanged) {
            trace.add(line, controller.snapshot());
        }
        return new Interpretation(source, controller.program, errors, controller.notes.finish(), trace, end, line);
    }

    private @Nullable Diagnostic unreadable() {
        if (source.size() > limits.fileBytes()) {
            return Diagnostic.of(
                            SourceSpan.ofFile(source.name()),
                            "file-too-large",
                            "the file has " + source.size() + " bytes, more than " + limits.fileBytes())
                    .expecting("Expected a smaller program.");
        }
        SourceSpan start = new SourceSpan(source.name(), 1, 1, 2);
        if (startsWith(0xff, 0xfe) || startsWith(0xfe, 0xff) || bytes.length >= 4 && looksLikeUtf16()) {
            return Diagnostic.of(start, "utf-16", "the file is UTF-16 text")
                    .expecting("Expected ASCII or UTF-8: export it again.");
        }
        if (startsWith(0xef, 0xbb, 0xbf)) {
            return Diagnostic.of(
                            start,
                            "byte-order-mark",
                            "the file begins with a byte order mark, which controllers read as letters")
                    .expecting("Expected plain ASCII or UTF-8 without it.");
        }
        if (!controller.systemParameterSound()) {
            return Diagnostic.of(
                            SourceSpan.ofFile(source.name()),
                            "parameter-5220",
                            "parameter 5220 names no coordinate system")
                    .expecting("Expected a whole number, 1 to 9.");
        }
        return null;
    }

    private boolean startsWith(int... head) {
        if (bytes.length < head.length) {
            return false;
        }
        for (int i = 0; i < head.length; i++) {
            if ((bytes[i] & 0xff) != head[i]) {
                return false;
            }
        }
        return true;
    }

    private boolean looksLikeUtf16() {
        int pairs = Math.min(bytes.length, 64) / 2;
        int low = 0;
        int high = 0;
        for (int i = 0; i < pairs; i++) {
            low += bytes[2 * i] == 0 && bytes[2 * i + 1] != 0 ? 1 : 0;
            high += bytes[2 * i + 1] == 0 && bytes[2 * i] != 0 ? 1 : 0;
        }
        return low == pairs || high == pairs;
    }

    private Interpretation.End lines() throws ProgramException {
        int next = 0;
        while (next < bytes.length) {
            line++;
            lineStart = next;
            int i = next;
            while (i < bytes.length && bytes[i] != '\n' && bytes[i] != '\r') {
                i++;
            }
            lineEnd = i;
            next = i + 1;
            if (i + 1 < bytes.length && bytes[i] == '\r' && bytes[i + 1] == '\n') {
                next = i + 2;
            }
            Interpretation.End end = oneLine();
            if (end != null) {
                return end;
            }
        }
        return endOfFile();
    }

    /** Runs the current line; what ended the program, or null. */
    private Interpretation.@Nullable End oneLine() throws ProgramException {
        int most = setup.dialect() == Dialect.STRICT ? 256 : limits.lineChars();
        if (lineEnd - lineStart > most) {
            throw new ProgramException(
                            "line-too-long",
                            most + 1,
                            most + 2,
                            "a line of " + (lineEnd - lineStart) + " characters, more than " + most)
                    .expecting("Expected shorter lines.");
        }
        if (setup.plainMoves() && plainMoves.run(lineStart, lineEnd, line)) {
            anyBlock = true;
            keepState();
            return null;
        }
        if (isPercentLine()) {
            if (!anyBlock && !percentOpen) {
                percentOpen = true;
                return null;
            }
            if (percentOpen) {
                block.clear(line);
                controller.begin(block.line, block.span());
                endWithoutCode();
                controller.command(CommandKind.PROGRAM_END);
                return Interpretation.End.PERCENT;
            }
            throw new ProgramException("percent", 1, 2, "a % line ends a program that no % line began")
                    .expecting("Expected % as the first line too, or M2 or M30 at the end.");
        }
        block.clear(line);
        reader.read(block, lineStart, lineEnd, setup.blockDelete());
        if (block.blank) {
            return null;
        }
        anyBlock = true;
        controller.begin(block.line, block.span());
        if (block.slash) {
            controller.note(
                    NoteKind.BLOCK_DELETE, setup.blockDelete() ? 1 : 0, setup.blockDelete() ? "skipped" : "runs");
            if (setup.blockDelete()) {
                return null;
            }
        }
        if (controller.parameters.unsetRead > 0) {
            controller.note(
                    NoteKind.PARAMETER_UNSET,
                    controller.parameters.unsetRead,
                    "#" + controller.parameters.unsetRead + " was never set and counts 0");
            controller.parameters.unsetRead = 0;
        }
        if (block.commentStart >= 0) {
            comment();
        }
        if (controller.program.size() > 2 * limits.motions() + 1000) {
            throw block.error("too-many-commands", "more than " + (2 * limits.motions() + 1000) + " commands")
                    .expecting("Expected a shorter program.");
        }
        boolean ended = runner.run(block);
        keepState();
        return ended && !setup.continueAfterEnd() ? Interpretation.End.PROGRAM_END : null;
    }

    private void keepState() {
        if (controller.stateChanged) {
            controller.stateChanged = false;
            trace.add(line, controller.snapshot());
        }
    }

    private boolean isPercentLine() {
        boolean percent = false;
        for (int i = lineStart; i < lineEnd; i++) {
            byte b = bytes[i];
            if (b == '%' && !percent) {
                percent = true;
            } else if (b != ' ' && b != '\t') {
                return false;
            }
        }
        return percent;
    }

    private Interpretation.End endOfFile() throws ProgramException {
        if (!anyBlock) {
            throw new ProgramException("empty-program", 0, 0, "the file holds no program")
                    .expecting("Expected at least one line of it.");
        }
        endWithoutCode();
        boolean cut = lineEnd == bytes.length;
        if (cut) {
            controller.note(
                    NoteKind.LAST_LINE_CUT, Double.NaN, "the last line has no line end: the file may have been cut");
        }
        String missing = percentOpen ? "the second % is missing at the end" : "neither M2 nor M30 ends the program";
        controller.note(NoteKind.PROGRAM_END_MISSING, line, missing);
        if (setup.dialect() == Dialect.STRICT && !setup.continueAfterEnd()) {
            throw new ProgramException("program-end-missing", 0, 0, missing)
                    .expecting("Expected M2 or M30, or % before and after.");
        }
        return Interpretation.End.FILE_END;
    }

    private void endWithoutCode() {
        if (Codes.isCycle(controller.motion)) {
            controller.note(NoteKind.CYCLE_LEFT_MODAL, controller.motion / 10.0, Codes.nameOfG(controller.motion));
        }
        controller.note(NoteKind.ENDED_AT_Z, controller.position[2] * controller.scale(), "");
    }

    private void comment() {
        int from = block.commentStart;
        int to = block.commentEnd;
        int message = afterMessageMark(from, to);
        int start = message >= 0 ? message : from;
        String text = new String(bytes, start, to - start, StandardCharsets.UTF_8);
        controller.text(message >= 0 ? CommandKind.MESSAGE : CommandKind.COMMENT, text);
    }

    /** The place after {@code MSG,} (any case, white space anywhere in it), or -1: section 3.3.4. */
    private int afterMessageMark(int from, int to) {
        String mark = "msg,";
        int matched = 0;
        for (int i = from; i < to; i++) {
            char c = Character.toLowerCase((char) bytes[i]);
            if (c == ' ' || c == '\t') {
                continue;
            }
            if (c != mark.charAt(matched)) {
                return -1;
            }
            if (++matched == mark.length()) {
                return i + 1;
            }
        }
        return -1;
    }

    private Diagnostic diagnostic(ProgramException e) {
        byte[] shown = java.util.Arrays.copyOfRange(bytes, lineStart, Math.min(lineEnd, lineStart + 4 * SHOWN_CHARS));
        StringBuilder text = new StringBuilder();
        String decoded = new String(shown, StandardCharsets.UTF_8);
        for (int i = 0; i < decoded.length() && i < SHOWN_CHARS; i++) {
            char c = decoded.charAt(i);
            text.append(c == '\t' ? ' ' : Character.isISOControl(c) ? '\ufffd' : c);
        }
        if (decoded.length() > SHOWN_CHARS) {
            text.append("...");
        }
        int column = charColumn(e.column);
        int endColumn = Math.max(column, charColumn(e.endColumn));
        return new Diagnostic(
                new SourceSpan(source.name(), line, column, endColumn),
                e.code,
                sentence(e.problem),
                e.expected,
                e.nearest,
                text.toString());
    }

    private static String sentence(String problem) {
        String closed = problem.endsWith(".") ? problem : problem + ".";
        return closed.substring(0, 1).toUpperCase(Locale.ROOT) + closed.substring(1);
    }

    /** The column in characters of a column in bytes: UTF-8 text in comments has more bytes than characters. */
    private int charColumn(int byteColumn) {
        int column = byteColumn;
        for (int i = lineStart; i < Math.min(lineEnd, lineStart + byteColumn - 1); i++) {
            if ((bytes[i] & 0xc0) == 0x80) {
                column--;
            }
        }
        return Math.max(byteColumn > 0 ? 1 : 0, column);
    }
}
