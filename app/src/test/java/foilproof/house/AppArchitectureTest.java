package foilproof.house;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import org.junit.jupiter.api.Test;

/** The walls of the app: who may draw, who may open windows, who may speak to the console. */
class AppArchitectureTest {
    private static final JavaClasses APP = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("foilproof.app");

    @Test
    void shouldKeepOpenGlInTheViewer() {
        noClasses()
                .that()
                .resideOutsideOfPackage("foilproof.app.viewer..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.lwjgl..")
                .allowEmptyShould(true)
                .check(APP);
    }

    @Test
    void shouldKeepWindowsInTheUserInterfaceAndThePractice() {
        noClasses()
                .that()
                .resideOutsideOfPackages("foilproof.app.ui..", "foilproof.app.practice..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("javax.swing..", "com.formdev..")
                .allowEmptyShould(true)
                .check(APP);
    }

    @Test
    void shouldReachGraphicsFromTheCommandLineThroughOneLazyDoorOnly() {
        noClasses()
                .that()
                .resideInAPackage("foilproof.app.cli..")
                .and()
                .doNotHaveSimpleName("GraphicsDoor")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("foilproof.app.viewer..", "foilproof.app.ui..", "java.awt..", "org.joml..")
                .allowEmptyShould(true)
                .check(APP);
    }

    @Test
    void shouldSpeakToTheConsoleAndEndTheProcessOnlyFromTheCommandLine() {
        noClasses()
                .that()
                .resideOutsideOfPackage("foilproof.app.cli..")
                .should()
                .accessField(System.class, "out")
                .orShould()
                .accessField(System.class, "err")
                .orShould()
                .callMethod(System.class, "exit", int.class)
                .allowEmptyShould(true)
                .check(APP);
    }

    @Test
    void shouldHaveNoPackageCycles() {
        slices().matching("foilproof.app.(*)..")
                .should()
                .beFreeOfCycles()
                .allowEmptyShould(true)
                .check(APP);
    }
}
