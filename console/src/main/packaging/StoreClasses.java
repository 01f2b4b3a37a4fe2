import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Enumeration;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;

/**
 * Writes a jar again with its classes as they are, not deflated: a start reads a thousand of them. All else stays deflated,
 * and order and times stay, so the same build gives the same octets. Run by the build: StoreClasses JAR.
 */
final class StoreClasses {

    private StoreClasses() {}

    /**
     * Writes the jar in its own place.
     *
     * @param args the jar
     * @throws IOException if it cannot be read or written
     */
    public static void main(String[] args) throws IOException {
        Path jar = Path.of(args[0]);
        Path stored = jar.resolveSibling(jar.getFileName() + ".stored");
        try (ZipFile from = new ZipFile(jar.toFile());
                ZipOutputStream to = new ZipOutputStream(new BufferedOutputStream(Files.newOutputStream(stored)))) {
            Enumeration<? extends ZipEntry> entries = from.entries();
            while (entries.hasMoreElements()) {
                ZipEntry entry = entries.nextElement();
                to.putNextEntry(entry.getName().endsWith(".class") ? asItIs(entry) : deflated(entry));
                try (InputStream octets = from.getInputStream(entry)) {
                    octets.transferTo(to);
                }
                to.closeEntry();
            }
        }
        Files.move(stored, jar, StandardCopyOption.REPLACE_EXISTING);
    }

    private static ZipEntry asItIs(ZipEntry entry) {
        ZipEntry stored = deflated(entry);
        stored.setMethod(ZipEntry.STORED);
        stored.setSize(entry.getSize());
        stored.setCrc(entry.getCrc());
        return stored;
    }

    private static ZipEntry deflated(ZipEntry entry) {
        ZipEntry copy = new ZipEntry(entry.getName());
        copy.setTimeLocal(entry.getTimeLocal());
        return copy;
    }
}
