import java.io.FileInputStream;
import java.io.IOException;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Says of each file named whether it conforms to PDF/A-3a; ends with 1 unless all do. */
public final class Conforms {
    private static final int COMPLAINTS_SHOWN = 10;

    public static void main(String[] files) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        boolean all = files.length > 0;
        for (String file : files) {
            all &= conforms(file);
        }
        System.exit(all ? 0 : 1);
    }

    private static boolean conforms(String file) throws Exception {
        PDFAFlavour flavour = PDFAFlavour.PDFA_3_A;
        try (PDFAParser parser = Foundries.defaultInstance().createParser(new FileInputStream(file), flavour);
                PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false)) {
            ValidationResult result = validator.validate(parser);
            String said = result.isCompliant() ? "conforms" : "does not conform";
            System.out.println(file + " " + said + ", " + result.getTotalAssertions() + " checks");
            result.getTestAssertions().stream()
                .filter(assertion -> assertion.getStatus() == TestAssertion.Status.FAILED)
                .limit(COMPLAINTS_SHOWN)
                .forEach(assertion -> System.out.println("   " + assertion.getRuleId() + " " + assertion.getMessage()));
            return result.isCompliant();
        }
    }
}
