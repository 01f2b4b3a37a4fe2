package org.rejoin.console.xapi;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.UUID;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The measure that statements are held against in these tests measures: each case from ADL's public conformance tests
 * (adlnet/lrs-conformance-test-suite, 1.0.3: "should fail" means an answer of 400) or from what a store of others answered.
 */
class StatementRulesTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    private static final String GOOD = """
            {"id": "efcdf6a0-c6cf-5a13-99e0-92433596f11d",
             "actor": {"objectType": "Agent", "account": {"homePage": "https://rejoin.invalid/seats", "name": "7f3a90c2"}},
             "verb": {"id": "http://adlnet.gov/expapi/verbs/failed", "display": {"en": "failed"}},
             "object": {"objectType": "Activity", "id": "https://rejoin.invalid/xapi/lesson/x", "definition": {"name": {"en": "X"}}},
             "result": {"score": {"scaled": 0.725, "raw": 72.5, "min": 0, "max": 100}, "success": false, "completion": true,
                "duration": "PT13M47.00S", "extensions": {"https://rejoin.invalid/xapi/ext/criteria": [{"measured": null}]}},
             "context": {"registration": "1d0a2f6c-6d1f-4f0e-8d5e-0a6a2f6cbb01", "platform": "Rejoin 0.1.0", "language": "en",
                "contextActivities": {"category": [{"id": "https://rejoin.invalid/xapi/profile/1"}]}},
             "timestamp": "2026-06-01T14:03:12.000Z"}
            """;

    @Test
    void theExampleOfAGradedFlightIsTaken() throws Exception {
        assertThat(StatementRules.broken(JSON.readTree(GOOD))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "/result/score|scaled|1.01",
                "/result/score|scaled|\"0.5\"",
                "/result/score|raw|120",
                "/result|response|null",
                "/result|duration|\"13:47\"",
                "/result|duration|\"P4W1D\"",
                "/result|duration|\"PA1H0M0S\"",
                "/result|success|\"true\"",
                "/result|extensions|{\"faults\": []}",
                "/actor|mbox|\"mailto:a@example.org\"",
                "/verb|id|\"failed\"",
                "/verb|id|\"ab=c://should.fail.com\"",
                "/verb|display|{\"a12345\": 5}",
                "/context|instructor|{\"objectType\": \"Agent\", \"name\": \"nobody\"}",
                "/context|registration|\"AA97B177-9383-4934-8543-0F91A7A028368\"",
                "/context|registration|\"MA97B177-9383-4934-8543-0F91A7A02836\"",
                "/context|contextActivities|{\"sibling\": []}",
                "|id|\"AA97B177-9383-4934-8543-0F91A7A028368\"",
                "|timestamp|\"2026-06-01T14:03:12.000-00:00\"",
                "|timestamp|\"2026-06-01T14:03:12.000\"",
                "|timestamp|\"01/011/2015\"",
                "|Actor|{}",
                "|version|\"0.9.9\"",
                "|version|\"1.1.0\"",
                "|object|{\"objectType\": \"Agent\", \"mbox\": \"mailto:a@example.org\"}",
                "|actor|{}"
            })
    void whatAStoreAnswersWith400Fails(String at, String name, String value) throws Exception {
        assertThat(StatementRules.broken(changed(at, name, value))).isNotEmpty();
    }

    private static ObjectNode changed(String at, String name, String value) throws IOException {
        ObjectNode statement = (ObjectNode) JSON.readTree(GOOD);
        JsonNode parent = at == null ? statement : statement.at(at);
        ((ObjectNode) parent).set(name, JSON.readTree(value));
        return statement;
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "/result/score|scaled|1.0",
                "/result/score|scaled|-1.0",
                "/result|duration|\"PT1H0M0.1S\"",
                "|version|\"1.0\"",
                "|version|\"1.0.9\""
            })
    void whatAStoreTakesPasses(String at, String name, String value) throws Exception {
        assertThat(StatementRules.broken(changed(at, name, value))).isEmpty();
    }

    /** RFC 9562, appendix A.4, published example. */
    @Test
    void anIdentifierFromANameIsThePublishedOne() {
        assertThat(Statement.NameUuid.of(Statement.NameUuid.DNS, "www.example.com"))
                .isEqualTo(UUID.fromString("2ed6657d-e927-568b-95e1-2665a8aea6a2"));
    }

    /** Worked out with another program (Python's uuid module). */
    @Test
    void theSameFlightIsTheSameStatement() {
        assertThat(Statement.NameUuid.of(Statement.NameUuid.URL, "https://rejoin.invalid/xapi/flight"))
                .isEqualTo(UUID.fromString("e37c1549-ff3b-5e81-b24a-5859ccb9c25f"));
        assertThat(Statement.idOf("9db2e5dc7bd5253fc3b28b8a31e99156281526b1f66a77be0fe357517c05c100", "1", "0.1.0"))
                .isEqualTo(UUID.fromString("efcdf6a0-c6cf-5a13-99e0-92433596f11d"));
    }

    /** ISO 8601, 4.4.3.2. */
    @ParameterizedTest
    @CsvSource({"827,PT13M47.00S", "0,PT0M0.00S", "3600.5,PT1H0M0.50S", "59.999,PT1M0.00S", "7325.25,PT2H2M5.25S"})
    void aDurationIsWrittenInHundredths(double seconds, String text) {
        assertThat(Statement.duration(seconds)).isEqualTo(text);
    }
}
