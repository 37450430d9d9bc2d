package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.config.binding.BindingChoices;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What {@code check --bind} does to the bindings, and what {@code check} says before. */
class BindingsTest {
    private static final String HEADER = "name,table,address,format,role,states\n";
    private static final String LIST = HEADER + "oxygen,input-register,1,uint16,measurement,\n"
            + "draught,input-register,2,int16,measurement,\n"
            + "phase,input-register,3,uint16,status,0=standby|7=firing\n";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void bindOnce() throws IOException {
        files = new SiteFiles(folder);
        list(LIST);
        bind();
    }

    private void list(String text) {
        files.write("points/hot-water.csv", text);
    }

    private List<String> bind(String... renamedPairs) throws IOException {
        Map<String, String> renamed = new LinkedHashMap<>();
        for (String pair : renamedPairs) {
            renamed.put(pair.substring(0, pair.indexOf('=')), pair.substring(pair.indexOf('=') + 1));
        }
        SiteFolder.Bound bound = files.load().bind(new BindingChoices(renamed, Set.of()));
        assertThat(bound.refused()).isEmpty();
        return bound.done();
    }

    private List<String> notRenamed(String... names) throws IOException {
        return files.load().bind(new BindingChoices(Map.of(), Set.of(names))).done();
    }

    private List<String> refused(String from, String to) throws IOException {
        String before = bindings();
        SiteFolder.Bound bound = files.load().bind(new BindingChoices(Map.of(from, to), Set.of()));
        assertThat(bound.done()).isEmpty();
        assertThat(bindings()).isEqualTo(before);
        return bound.refused();
    }

    private String bindings() throws IOException {
        return Files.readString(folder.resolve("bindings.csv"));
    }

    private List<String> problems() {
        return files.load().problems().stream()
                .map(problem -> problem.word() + ": " + problem)
                .toList();
    }

    @Test
    void aPointThatIsGoneIsMarkedAndHasItsInstanceAgainWhenItComesBack() throws IOException {
        list(LIST.replaceAll("(?m)^oxygen.*\n", ""));
        assertThat(problems())
                .containsExactly(
                        "note: bindings.csv:2:1: hot-water.oxygen is in no point list; its offset 1 stays taken, and"
                                + " 'check --bind' marks it gone");
        assertThat(bind())
                .containsExactly("hot-water.oxygen is gone; analog-input offset 1 is given to no other point");
        assertThat(bindings()).contains("hot-water,oxygen,analog-input,1,,input-register wire 0 uint16,,yes\n");
        assertThat(problems()).isEmpty();
        list(LIST);
        assertThat(problems())
                .singleElement()
                .asString()
                .contains("oxygen is marked gone but is in the point list again");
        assertThat(bind()).containsExactly("hot-water.oxygen is back with analog-input offset 1");
        assertThat(bindings()).contains("hot-water,oxygen,analog-input,1,,input-register wire 0 uint16,,\n");
    }

    @Test
    void whatLooksLikeARenameIsAskedAndLeftAlone() throws IOException {
        list(LIST.replace("oxygen", "flue-oxygen").replace("draught,", "pull,"));
        String before = bindings();
        assertThat(problems())
                .hasSize(2)
                .first()
                .asString()
                .startsWith("warning: bindings.csv:2:1: hot-water.oxygen is in no point list, and flue-oxygen is read")
                .contains("'check --bind --renamed hot-water.oxygen=flue-oxygen'")
                .contains("'check --bind --not-renamed hot-water.flue-oxygen'");
        assertThat(bind()).isEmpty();
        assertThat(bindings()).isEqualTo(before);
        assertThat(bind("hot-water.oxygen=flue-oxygen"))
                .containsExactly("hot-water.oxygen is now hot-water.flue-oxygen, analog-input offset 1");
        assertThat(bindings())
                .contains("hot-water,flue-oxygen,analog-input,1,,input-register wire 0 uint16,oxygen,\n")
                .contains("hot-water,draught,analog-input,2,");
        assertThat(notRenamed("hot-water.pull"))
                .containsExactly(
                        "hot-water.draught is gone; analog-input offset 2 is given to no other point",
                        "hot-water.pull has analog-input offset 4");
    }

    @Test
    void aRenameMayBeWrittenIntoTheFileByHand() throws IOException {
        list(LIST.replace("oxygen", "flue-oxygen"));
        files.write("bindings.csv", "type,point,object,offset,was\nhot-water,flue-oxygen,analog-input,1,oxygen\n");
        assertThat(bind()).contains("noted of 1 rows where their points are read from");
        assertThat(bindings()).contains("hot-water,flue-oxygen,analog-input,1,oxygen,,input-register wire 0 uint16");
    }

    @Test
    void aFormerNameIsAskedAboutToo() throws IOException {
        list(LIST.replace("oxygen", "flue-oxygen"));
        bind("hot-water.oxygen=flue-oxygen");
        list(LIST.replace("oxygen,input-register,1", "oxygen,input-register,9"));
        assertThat(problems()).singleElement().asString().contains("--renamed hot-water.flue-oxygen=oxygen");
    }

    @Test
    void namesMayBeExchanged() throws IOException {
        list(LIST.replace("oxygen", "x").replace("draught", "oxygen").replace("x,", "draught,"));
        assertThat(problems())
                .isNotEmpty()
                .allMatch(p ->
                        p.startsWith("warning: bindings.csv:") && p.contains("--renamed hot-water.oxygen=draught"));
        bind("hot-water.oxygen=draught", "hot-water.draught=oxygen");
        assertThat(bindings())
                .contains("hot-water,draught,analog-input,1,,input-register wire 0 uint16,oxygen,\n")
                .contains("hot-water,oxygen,analog-input,2,,input-register wire 1 int16,draught,\n");
    }

    @Test
    void aChainOfRenamesIsAskedWhole() throws IOException {
        list(LIST.replace("draught", "pull").replace("oxygen", "draught"));
        assertThat(problems())
                .first()
                .asString()
                .contains("--renamed hot-water.oxygen=draught --renamed hot-water.draught=pull");
        assertThat(bind()).isEmpty();
        bind("hot-water.oxygen=draught", "hot-water.draught=pull");
        assertThat(bindings()).contains("hot-water,draught,analog-input,1").contains("hot-water,pull,analog-input,2");
    }

    @Test
    void addressesThatWerePutRightAskNothing() throws IOException {
        list(LIST.replace(",3,", ",4,").replace(",2,", ",3,").replace(",1,", ",2,"));
        assertThat(problems()).hasSize(3).allMatch(p -> p.startsWith("note: ") && p.contains("its instance stays"));
        bind();
        assertThat(bindings()).contains("oxygen,analog-input,1,,input-register wire 1 uint16");
        assertThat(problems()).isEmpty();
    }

    @Test
    void aChoiceThatCannotBeFollowedIsRefusedWhole() throws IOException {
        assertThat(refused("hot-water.oxigen", "oxygen"))
                .containsExactly("--renamed hot-water.oxigen=hot-water.oxygen: hot-water.oxigen has no binding");
        assertThat(refused("hot-water.oxygen", "flue"))
                .contains("--renamed hot-water.oxygen=hot-water.flue: hot-water.flue is in no point list");
        assertThat(refused("hot-water.oxygen", "draught"))
                .containsExactly(
                        "--renamed hot-water.oxygen=hot-water.draught: hot-water.oxygen is in the point list still");
        assertThat(refused("steam", "hot-water"))
                .containsExactly("--renamed steam=hot-water: no binding is of type steam");
        assertThat(refused("hot-water", "steam"))
                .containsExactly("--renamed hot-water=steam: type hot-water is in site.yaml still");
        assertThat(refused("hot-water.", "x")).singleElement().asString().contains("must be type.point=type.point");
        assertThat(files.load()
                        .bind(new BindingChoices(Map.of(), Set.of("hot-water.flue")))
                        .refused())
                .singleElement()
                .asString()
                .contains("is no type of site.yaml and no type.point");
    }

    @Test
    void aRenameStatedTooLateTakesTheNameBack() throws IOException {
        list(LIST.replace("oxygen", "flue-oxygen"));
        notRenamed("hot-water.flue-oxygen");
        assertThat(bind("hot-water.oxygen=flue-oxygen"))
                .contains("hot-water.flue-oxygen is gone; analog-input offset 4 is given to no other point");
        assertThat(bindings())
                .contains("hot-water,flue-oxygen,analog-input,1,,input-register wire 0 uint16,oxygen,\n")
                .contains("hot-water,flue-oxygen,analog-input,4,,input-register wire 0 uint16,,for-good\n");
    }

    @Test
    void anotherKindOfObjectKeepsTheOffsetAndTheOldOneIsKeptForIt() throws IOException {
        list(LIST.replace(
                "oxygen,input-register,1,uint16,measurement,", "oxygen,input-register,1,uint16,status,0=low|1=high"));
        assertThat(problems())
                .singleElement()
                .asString()
                .contains("warning: bindings.csv:2:1: hot-water.oxygen is bound as analog-input but its row makes it a"
                        + " multi-state-input");
        assertThat(bind())
                .containsExactly("hot-water.oxygen is now a multi-state-input, offset 1; its analog-input offset 1 is"
                        + " given to no other point");
        assertThat(bindings())
                .contains("hot-water,oxygen,analog-input,1,,input-register wire 0 uint16,,yes\n")
                .endsWith("hot-water,oxygen,multi-state-input,1,0=1|1=2,input-register wire 0 uint16,,\n");
        list(LIST);
        bind();
        assertThat(bindings())
                .contains("hot-water,oxygen,analog-input,1,,input-register wire 0 uint16,,\n")
                .endsWith("hot-water,oxygen,multi-state-input,1,0=1|1=2,input-register wire 0 uint16,,yes\n");
    }

    @Test
    void aStateKeepsItsNumberWhateverIsInsertedRemovedOrReworded() throws IOException {
        list(LIST.replace("0=standby|7=firing", "0=ready|3=purge|9=lockout"));
        assertThat(problems())
                .singleElement()
                .asString()
                .contains("hot-water.phase has states without a multi-state number (3, 9)");
        bind();
        assertThat(bindings()).contains("hot-water,phase,multi-state-input,3,0=1|7=2|3=3|9=4,");
        list(LIST.replace("0=standby|7=firing", "9=lockout|7=firing"));
        assertThat(problems()).isEmpty();
        assertThat(bind()).isEmpty();
    }

    @Test
    void aTypeUnderAnotherNameIsAskedAboutAndKeepsItsInstances() throws IOException {
        files.write(
                "site.yaml",
                SiteFiles.SITE.replace("hot-water:", "boiler:").replace("type: hot-water", "type: boiler"));
        assertThat(problems())
                .singleElement()
                .asString()
                .contains("type hot-water is not in site.yaml, and type boiler has no bindings")
                .contains("'check --bind --renamed hot-water=boiler'");
        assertThat(bind()).isEmpty();
        bind("hot-water=boiler");
        assertThat(bindings())
                .contains("boiler,oxygen,analog-input,1,,input-register wire 0 uint16,hot-water.oxygen,\n");
        assertThat(problems()).isEmpty();
    }

    @Test
    void aControllerThatChangesToACopyOfItsTypeKeepsItsInstances() throws IOException {
        files.write("points/other.csv", LIST.replace("draught,input-register,2", "pull,input-register,8"));
        files.write(
                "site.yaml",
                SiteFiles.SITE.replace(
                        "controllers:", "  newer: {points: points/other.csv, numbering: data-model}\ncontrollers:"));
        bind();
        assertThat(bindings())
                .contains("newer,oxygen,analog-input,1,")
                .contains("newer,phase,multi-state-input,3,0=1|7=2,")
                .contains("newer,pull,analog-input,4,");
        list(LIST + "fan,input-register,7,uint16,measurement,\n");
        bind();
        assertThat(bindings()).contains("hot-water,fan,analog-input,5,");
    }

    @Test
    void noInstanceIsGivenThatAnotherControllerHas() throws IOException {
        files.write("points/other.csv", HEADER + "load,input-register,8,uint16,measurement,\n");
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace(
                                "controllers:",
                                "  steam: {points: points/other.csv, numbering: data-model}\ncontrollers:")
                        .replace(
                                "bacnet:",
                                "  steam-1: {line: annex, unit: 2, type: steam, instance-base: 1000}\nbacnet:"));
        bind();
        assertThat(bindings()).contains("steam,load,analog-input,3,");
        assertThat(problems()).isEmpty();
    }

    @Test
    void noPointTakesThePlaceOfWhatTellsWhetherAnotherControllerAnswers() throws IOException {
        files.write("points/other.csv", HEADER + "fan,input-register,8,bit:0,status,\n");
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace(
                                "controllers:",
                                "  steam: {points: points/other.csv, numbering: data-model}\ncontrollers:")
                        .replace(
                                "bacnet:",
                                "  steam-1: {line: annex, unit: 2, type: steam, instance-base: 999}\nbacnet:"));
        bind();
        assertThat(bindings()).contains("steam,fan,binary-input,2,");
    }

    @Test
    void anInstanceThatWasAnothersOnceIsWarnedOf() throws IOException {
        list(LIST.replaceAll("(?m)^oxygen.*\n", ""));
        bind();
        files.write(
                "site.yaml",
                SiteFiles.SITE.replace(
                        "bacnet:", "  boiler-2: {line: annex, unit: 2, type: hot-water, instance-base: 999}\nbacnet:"));
        assertThat(problems())
                .containsExactly("warning: site.yaml:10:13: controllers.boiler-2.instance-base: 999 gives"
                        + " boiler-2.draught (bindings.csv line 3) analog-input 1001, which is also boiler-1.oxygen"
                        + " (bindings.csv line 2); one of them is gone, but who still asks for it there would get the"
                        + " other");
    }

    @Test
    void equalNumbersOfTwoKindsAreTwoInstances() {
        files.write(
                "bindings.csv",
                "type,point,object,offset,states\nhot-water,oxygen,analog-input,1,\n"
                        + "hot-water,phase,multi-state-input,1,0=1|7=2\n");
        assertThat(files.errors()).isEmpty();
    }

    @Test
    void rowsThatDoNotChangeStayToTheLetterAndNotesStayAnyway() throws IOException {
        String kept = "sep=;\r\n\uFEFF".substring(0, 7)
                + "note-who;offset;object;point;type\r\n\r\n\"me; myself\";2;analog-input; draught;hot-water\r\n"
                + "k\u00F6nig;1;analog-input;oxygen;hot-water\r\n";
        Files.write(folder.resolve("bindings.csv"), kept.getBytes(Charset.forName("windows-1252")));
        bind();
        String written = Files.readString(folder.resolve("bindings.csv"), Charset.forName("windows-1252"));
        assertThat(written)
                .isEqualTo("sep=;\r\nnote-who;offset;object;point;type;states;at\r\n"
                        + "\"me; myself\";2;analog-input;draught;hot-water;;input-register wire 1 int16\r\n"
                        + "k\u00F6nig;1;analog-input;oxygen;hot-water;;input-register wire 0 uint16\r\n"
                        + ";3;multi-state-input;phase;hot-water;0=1|7=2;input-register wire 2 uint16\r\n");
        list(LIST.replaceAll("(?m)^draught.*\n", ""));
        bind();
        assertThat(Files.readString(folder.resolve("bindings.csv"), Charset.forName("windows-1252")))
                .contains(
                        "states;at;gone\r\n\"me; myself\";2;analog-input;draught;hot-water;;input-register wire 1 int16;yes\r\n")
                .contains("k\u00F6nig;1;analog-input;oxygen;hot-water;;input-register wire 0 uint16\r\n;3;");
    }

    @Test
    void negativeStatesSurviveASpreadsheet() throws IOException {
        list(LIST.replace("uint16,status,0=standby|7=firing", "int16,status,-1=fault|0=ok"));
        Files.delete(folder.resolve("bindings.csv"));
        bind();
        assertThat(bindings()).contains("multi-state-input,3,'-1=1|0=2,");
        assertThat(problems()).isEmpty();
    }

    @Test
    void aFileThatSomebodyChangesMeanwhileIsNotOverwritten() throws IOException {
        list(LIST + "fan,input-register,7,uint16,measurement,\n");
        SiteFolder loaded = files.load();
        Files.writeString(folder.resolve("bindings.csv"), bindings() + "\n", StandardCharsets.UTF_8);
        assertThatThrownBy(() -> loaded.bind(BindingChoices.NONE))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("changed by somebody else");
    }

    @Test
    void aSpreadsheetsTruthValueMarksARowGone() {
        for (String gone : List.of("WAHR", "VRAI", "yes", "VERDADEIRO")) {
            files.write("bindings.csv", "type,point,object,offset,gone\nhot-water,old,analog-input,1," + gone + "\n");
            assertThat(files.errors()).isEmpty();
            assertThat(problems()).noneMatch(p -> p.contains("hot-water.old is in no point list"));
        }
    }
}
