import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.URI;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.spi.ToolProvider;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

/**
 * Packs the program with a runtime of its own, for the system it runs on. Run by the build's profile "image":
 * PackProgram VERSION MODULES ROOT TARGET. Needs the modules of the JDK that runs it, nothing else.
 */
public final class PackProgram {

    /** The same packed twice gives the same bytes; zip files know no earlier year than 1980. */
    private static final Instant STAMP = Instant.parse("1980-02-01T00:00:00Z");

    private static final long MOST_PACKED = 35_000_000;
    private static final long MOST_UNPACKED = 110_000_000;

    private final String version;
    private final String modules;
    private final Path root;
    private final Path target;
    private final boolean windows = System.getProperty("os.name").toLowerCase(Locale.ROOT).contains("windows");

    private PackProgram(String version, String modules, Path root, Path target) {
        this.version = version;
        this.modules = modules;
        this.root = root;
        this.target = target;
    }

    public static void main(String[] args) throws Exception {
        new PackProgram(args[0].replace("-SNAPSHOT", ""), args[1], Path.of(args[2]), Path.of(args[3])).pack();
    }

    private void pack() throws Exception {
        String name = "rejoin-" + version + "-" + system();
        Path image = target.resolve("image").resolve(name);
        delete(target.resolve("image"));
        Files.createDirectories(image);
        link(image.resolve("runtime"));
        copyJar(target.resolve("rejoin.jar"), image.resolve("rejoin.jar"));
        Path here = root.resolve("console/src/main/packaging");
        for (String file : windows
                ? List.of("rejoin.cmd", "make-archive.cmd", "README.txt")
                : List.of("rejoin", "README.txt")) {
            Files.copy(here.resolve(file), image.resolve(file));
        }
        Files.createDirectories(image.resolve("licences"));
        Files.copy(root.resolve("LICENSE"), image.resolve("licences/LICENSE.txt"));
        Files.copy(
                root.resolve("console/src/main/resources/META-INF/THIRD-PARTY.txt"),
                image.resolve("licences/THIRD-PARTY.txt"));
        Files.createDirectories(image.resolve("schemas"));
        try (Stream<Path> schemas = Files.list(root.resolve("console/src/main/resources/org/rejoin/console/schema"))) {
            for (Path schema : schemas.sorted().toList()) {
                Files.copy(schema, image.resolve("schemas").resolve(schema.getFileName()));
            }
        }
        copyGuide(image.resolve("guide"));
        copyDocs(image.resolve("docs"));
        printed(image, "man", "share/man/man1/rejoin.1");
        printed(image, "completion", "share/bash-completion/completions/rejoin");
        writeBill(image);
        writeSums(image);
        long unpacked = sizes(image);
        Path zip = target.resolve(name + ".zip");
        zip(image, name, zip);
        long packed = Files.size(zip);
        Files.writeString(target.resolve(name + ".zip.sha256"), sha256(zip) + "  " + name + ".zip\n");
        Files.writeString(target.resolve("image/packed.txt"), zip.toAbsolutePath() + "\n");
        if (packed > MOST_PACKED || unpacked > MOST_UNPACKED) {
            throw new IOException(zip + " has " + packed + " octets, unpacked " + unpacked + "; at most " + MOST_PACKED
                    + " and " + MOST_UNPACKED);
        }
    }

    private String system() {
        String os = System.getProperty("os.name").toLowerCase(Locale.ROOT);
        String arch = System.getProperty("os.arch").replace("amd64", "x64").replace("x86_64", "x64");
        return (windows ? "windows" : os.contains("mac") ? "macos" : "linux") + "-" + arch.replace("aarch64", "arm64");
    }

    private void link(Path runtime) throws IOException {
        ToolProvider jlink = ToolProvider.findFirst("jlink")
                .orElseThrow(() -> new IOException("this JDK has no jlink; a full JDK 17 or later is needed"));
        // Uncompressed: the zip file packs it better as a whole.
        int code = jlink.run(
                System.out,
                System.err,
                "--add-modules",
                modules,
                "--strip-debug",
                "--no-header-files",
                "--no-man-pages",
                "--compress=0",
                "--output",
                runtime.toString());
        if (code != 0) {
            throw new IOException("jlink ended with " + code);
        }
    }

    /** The guide as the page shows it, to be read before the program is started. */
    private void copyGuide(Path folder) throws IOException {
        Path page = root.resolve("console/src/main/resources/org/rejoin/console/page");
        Files.createDirectories(folder);
        try (Stream<Path> files = Files.list(page)) {
            for (Path file : files.sorted().toList()) {
                String name = file.getFileName().toString();
                if (name.matches("guide-[a-z]+\\.png|guide\\.html|(page|room|guide)\\.css")) {
                    Files.copy(file, folder.resolve(name));
                }
            }
        }
    }

    /** The pages that the guide and the templates name, in one folder. */
    private void copyDocs(Path folder) throws IOException {
        Files.createDirectories(folder);
        for (String module : List.of("sim-protocol", "bridge", "console")) {
            try (Stream<Path> pages = Files.list(root.resolve(module).resolve("docs"))) {
                for (Path page : pages.filter(each -> each.toString().endsWith(".md")).sorted().toList()) {
                    Files.writeString(
                            folder.resolve(page.getFileName()),
                            Files.readString(page).replaceAll("\\]\\(\\.\\./\\.\\./[a-z-]+/docs/", "]("));
                }
            }
        }
    }

    /** What a command of the program prints. */
    private static void printed(Path image, String command, String file) throws IOException, InterruptedException {
        Path to = image.resolve(file);
        Files.createDirectories(to.getParent());
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-jar",
                        image.resolve("rejoin.jar").toString(),
                        command)
                .redirectOutput(to.toFile())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        if (process.waitFor() != 0) {
            throw new IOException("rejoin " + command + " ended with " + process.exitValue());
        }
    }

    /** The libraries of other systems are left out. */
    private void copyJar(Path from, Path to) throws IOException {
        String os = windows ? "Windows" : system().startsWith("macos") ? "Mac" : "Linux";
        String arch = System.getProperty("os.arch").replace("amd64", "x86_64");
        try (ZipInputStream in = new ZipInputStream(Files.newInputStream(from));
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(to))) {
            out.setLevel(9);
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                String name = entry.getName();
                boolean foreign = name.startsWith("org/sqlite/native/")
                        && !entry.isDirectory()
                        && !name.startsWith("org/sqlite/native/" + os + "/" + arch + "/");
                if (foreign) {
                    continue;
                }
                ZipEntry kept = new ZipEntry(name);
                kept.setLastModifiedTime(FileTime.from(STAMP));
                out.putNextEntry(kept);
                in.transferTo(out);
                out.closeEntry();
            }
        }
    }

    /** What the build wrote of the libraries, and the runtime as a component of its own. */
    private void writeBill(Path image) throws IOException {
        Path bill = root.resolve("target/bom.json");
        if (!Files.isRegularFile(bill)) {
            throw new IOException(bill + " is missing: the profile writes it before this runs");
        }
        String runtime = "{\"type\": \"platform\", \"name\": \"" + System.getProperty("java.vendor") + " "
                + System.getProperty("java.runtime.name") + "\", \"version\": \""
                + System.getProperty("java.runtime.version")
                + "\", \"licenses\": [{\"license\": {\"id\": \"GPL-2.0-with-classpath-exception\"}}],"
                + " \"description\": \"runtime linked of " + modules + "\"},";
        String text = Files.readString(bill);
        int at = text.indexOf('[', text.indexOf("\"components\"")) + 1;
        Files.writeString(
                image.resolve("bill-of-materials.json"), text.substring(0, at) + "\n    " + runtime + text.substring(at));
    }

    private static void writeSums(Path image) throws IOException, NoSuchAlgorithmException {
        StringBuilder sums = new StringBuilder();
        for (Path file : files(image)) {
            sums.append(sha256(file)).append("  ").append(image.relativize(file).toString().replace('\\', '/')).append('\n');
        }
        Files.writeString(image.resolve("SHA256SUMS"), sums);
    }

    private static List<Path> files(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile).sorted().toList();
        }
    }

    private static long sizes(Path folder) throws IOException {
        long sum = 0;
        for (Path file : files(folder)) {
            sum += Files.size(file);
        }
        return sum;
    }

    private static String sha256(Path file) throws IOException, NoSuchAlgorithmException {
        MessageDigest digest = MessageDigest.getInstance("SHA-256");
        try (InputStream in = new DigestInputStream(Files.newInputStream(file), digest)) {
            in.transferTo(OutputStream.nullOutputStream());
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    private void zip(Path image, String name, Path zip) throws IOException {
        Files.deleteIfExists(zip);
        URI uri = URI.create("jar:" + zip.toUri());
        Map<String, String> options = Map.of("create", "true", "enablePosixFileAttributes", "true");
        try (FileSystem packed = FileSystems.newFileSystem(uri, options)) {
            List<Path> all = new ArrayList<>(files(image));
            all.sort(Comparator.naturalOrder());
            for (Path file : all) {
                Path to = packed.getPath(name, image.relativize(file).toString().replace('\\', '/'));
                Files.createDirectories(to.getParent());
                Files.copy(file, to, StandardCopyOption.REPLACE_EXISTING);
                String inside = image.relativize(file).toString().replace('\\', '/');
                boolean runs = inside.equals("rejoin")
                        || inside.startsWith("runtime/bin/")
                        || inside.endsWith("/jspawnhelper")
                        || inside.endsWith("/jexec");
                Files.setPosixFilePermissions(to, PosixFilePermissions.fromString(runs ? "rwxr-xr-x" : "rw-r--r--"));
                Files.setLastModifiedTime(to, FileTime.from(STAMP));
            }
        }
    }

    private static void delete(Path folder) throws IOException {
        if (Files.exists(folder)) {
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(path);
                }
            }
        }
    }
}
