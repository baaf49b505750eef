package foilproof.app.ui;

import foilproof.bench.AcceptedFile;
import foilproof.bench.Job;
import foilproof.bench.JobSource;
import foilproof.dryrun.Acceptances;
import foilproof.findings.Finding;
import foilproof.source.InputException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.JTextField;
import org.jspecify.annotations.Nullable;

/** Accepts a finding with a reason, stored beside the job and void when any byte of the inputs changes. */
final class AcceptDialog {
    private AcceptDialog() {}

    /** Asks for the reason and stores it; tells in words what was done, "" where nothing was. */
    static String ask(JFrame frame, JobSource source, Job job, Path folder, List<String> settings, Finding f) {
        String reason = askReason(frame, f);
        return reason == null ? "" : store(source, job, folder, settings, f, reason);
    }

    private static @Nullable String askReason(JFrame frame, Finding f) {
        JTextField reason = new JTextField(36);
        reason.setName("reason");
        Object[] parts = {
            "Accept \"" + f.kind() + "\" for a reason. It is stored beside the job in " + AcceptedFile.NAME,
            "and holds until any byte of the inputs changes. Because:",
            reason
        };
        JOptionPane pane = new JOptionPane(parts, JOptionPane.PLAIN_MESSAGE, JOptionPane.OK_CANCEL_OPTION) {
            private static final long serialVersionUID = 1L;

            @Override
            public void selectInitialValue() {
                reason.requestFocusInWindow();
            }
        };
        var dialog = pane.createDialog(frame, "Accept a finding");
        dialog.addWindowListener(new java.awt.event.WindowAdapter() {
            @Override
            public void windowOpened(java.awt.event.WindowEvent e) {
                // Another dialog may just have closed: window managers then leave the new one without the focus.
                dialog.toFront();
                reason.requestFocus();
            }
        });
        dialog.setVisible(true);
        if (!Integer.valueOf(JOptionPane.OK_OPTION).equals(pane.getValue())) {
            return null;
        }
        return reason.getText();
    }

    /** Stores one acceptance; the file appears whole or not at all. */
    static String store(JobSource source, Job job, Path folder, List<String> settings, Finding f, String reason) {
        if (reason.isBlank()) {
            return "Not accepted: a finding is accepted for a reason.";
        }
        try {
            byte[] text = Acceptances.of(source, job, settings)
                    .accepting(f, reason)
                    .toml()
                    .getBytes(StandardCharsets.UTF_8);
            Path part = Files.createTempFile(folder, ".accepted", ".toml");
            try {
                Files.write(part, text);
                Files.move(part, folder.resolve(AcceptedFile.NAME), StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
            return "Accepted: stored in " + AcceptedFile.NAME + " beside the job.";
        } catch (InputException e) {
            return "Not accepted: " + JobLoader.words(e).strip();
        } catch (IOException e) {
            return "Not accepted: " + AcceptedFile.NAME + " cannot be written: " + e.getMessage();
        }
    }
}
