package foilproof.app.cli;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The platform's folder for a person's own configuration. */
final class UserFolders {
    private UserFolders() {}

    /** The person's own shop file, there or not; null where the platform names no folder. */
    static @Nullable Path shopFile() {
        try {
            Path folder = configuration();
            return folder == null ? null : folder.resolve("shop.toml");
        } catch (InvalidPathException e) {
            return null;
        }
    }

    private static @Nullable Path configuration() {
        String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        String home = System.getProperty("user.home");
        if (system.startsWith("windows")) {
            String roaming = System.getenv("APPDATA");
            return roaming == null || roaming.isEmpty() ? null : Path.of(roaming, "Foilproof");
        }
        if (system.startsWith("mac")) {
            return home == null ? null : Path.of(home, "Library", "Application Support", "Foilproof");
        }
        String named = System.getenv("XDG_CONFIG_HOME");
        if (named != null && !named.isEmpty()) {
            return Path.of(named, "foilproof");
        }
        return home == null ? null : Path.of(home, ".config", "foilproof");
    }
}
