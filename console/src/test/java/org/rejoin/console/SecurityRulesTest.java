package org.rejoin.console;

import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noFields;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.cfg.MapperBuilder;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.yaml.snakeyaml.Yaml;

/** What security.md says of the code as a whole, and that the tests it names exist. */
class SecurityRulesTest {

    private static JavaClasses ours;

    @BeforeAll
    static void read() {
        ours = new ClassFileImporter()
                .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                // The bridge's flights for tests come as a jar.
                .withImportOption(location -> !location.contains("-tests.jar"))
                .importPackages("org.rejoin");
    }

    @Test
    void noFileOrDatagramNamesAClassToBeMade() {
        assertThat(ours).hasSizeGreaterThan(150);
        noClasses()
                .should()
                .dependOnClassesThat()
                .haveNameMatching("java\\.io\\.Object(Input|Output)Stream|java\\.beans\\..*|java\\.rmi\\..*")
                .check(ours);
        noClasses()
                .should()
                .callMethodWhere(target(nameMatching(".*DefaultTyping.*|.*PolymorphicTypeValidator.*")))
                .check(ours);
        noClasses().should().beAnnotatedWith(JsonTypeInfo.class).check(ours);
        noFields().should().beAnnotatedWith(JsonTypeInfo.class).check(ours);
        noClasses()
                .should()
                .callMethodWhere(target(owner(JavaClass.Predicates.assignableTo(Yaml.class)))
                        .and(target(nameMatching("load.*"))))
                .check(ours);
        noClasses()
                .should()
                .callMethodWhere(target(nameMatching("forName|loadClass"))
                        .and(target(owner(JavaClass.Predicates.assignableTo(Class.class)
                                .or(JavaClass.Predicates.assignableTo(ClassLoader.class))))))
                .check(ours);
    }

    @Test
    void noProgramIsRunButTheKeyToolOfTheJdkTheSpeechProgramsAndWhatOpensThePage() {
        noClasses()
                .that()
                .doNotHaveFullyQualifiedName("org.rejoin.console.door.PageCertificate")
                .and()
                .doNotHaveFullyQualifiedName("org.rejoin.console.speech.Child")
                .and()
                .doNotHaveFullyQualifiedName("org.rejoin.console.cli.WebBrowser")
                .should()
                .dependOnClassesThat()
                .haveNameMatching("java\\.lang\\.ProcessBuilder|javax\\.script\\..*|javax\\.naming\\..*")
                .check(ours);
        noClasses()
                .should()
                .callMethodWhere(target(nameMatching("exec"))
                        .and(target(owner(JavaClass.Predicates.assignableTo(Runtime.class)))))
                .check(ours);
    }

    @Test
    void noConnectionIsOpenedOutwardButToTheRecordStoreThatTheUserNames() {
        noClasses()
                .that()
                .doNotHaveFullyQualifiedName("org.rejoin.console.xapi.StoreConnection")
                .should()
                .dependOnClassesThat()
                .haveNameMatching("java\\.net\\.URLConnection|java\\.net\\.http\\..*")
                .check(ours);
    }

    /** The rules look for what the libraries really call so. */
    @Test
    void whatTheRulesLookForExists() {
        assertThat(Stream.of(ObjectMapper.class.getMethods()).map(method -> method.getName()))
                .contains("activateDefaultTyping");
        assertThat(Stream.of(MapperBuilder.class.getMethods()).map(method -> method.getName()))
                .contains("activateDefaultTyping");
        assertThat(Stream.of(Yaml.class.getMethods()).map(method -> method.getName()))
                .contains("load", "loadAs");
    }

    @Test
    void everyTestThatTheDocumentsNameExists() throws IOException {
        Map<String, String> tests = new HashMap<>();
        for (String module : List.of("sim-protocol", "bridge", "console")) {
            try (Stream<Path> files = Files.walk(Path.of("..", module, "src", "test", "java"))) {
                for (Path file : files.filter(each -> each.toString().endsWith("Test.java"))
                        .toList()) {
                    tests.put(file.getFileName().toString().replace(".java", ""), Files.readString(file));
                }
            }
        }
        Pattern named = Pattern.compile("`([A-Z]\\w*Test)(?:\\.(\\w+))?`");
        List<String> missing = new ArrayList<>();
        int found = 0;
        for (String document : List.of("security.md", "page.md")) {
            Matcher name = named.matcher(Files.readString(Path.of("docs", document)));
            while (name.find()) {
                found++;
                String source = tests.getOrDefault(name.group(1), "");
                if (source.isEmpty() || (name.group(2) != null && !source.contains("void " + name.group(2) + "("))) {
                    missing.add(document + ": " + name.group());
                }
            }
        }
        assertThat(missing).isEmpty();
        assertThat(found).isGreaterThan(30);
    }
}
