import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

/**
 * Stores the classes of a jar as they are, in their order: a command unpacks seven hundred to thirteen hundred of them
 * before it says its first word. Run by the build: StoreClasses JAR.
 */
public final class StoreClasses {

    public static void main(String[] args) throws IOException {
        Path jar = Path.of(args[0]);
        Path stored = jar.resolveSibling(jar.getFileName() + ".stored");
        try (ZipInputStream in = new ZipInputStream(Files.newInputStream(jar));
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(stored))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                byte[] octets = in.readAllBytes();
                ZipEntry kept = new ZipEntry(entry.getName());
                kept.setTimeLocal(entry.getTimeLocal());
                if (entry.getName().endsWith(".class") || entry.getMethod() == ZipEntry.STORED) {
                    CRC32 sum = new CRC32();
                    sum.update(octets);
                    kept.setMethod(ZipEntry.STORED);
                    kept.setSize(octets.length);
                    kept.setCrc(sum.getValue());
                }
                out.putNextEntry(kept);
                out.write(octets);
                out.closeEntry();
            }
        }
        Files.move(stored, jar, StandardCopyOption.REPLACE_EXISTING);
    }
}
