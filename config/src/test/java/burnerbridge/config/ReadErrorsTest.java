package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Mistakes in what a type's controllers ask of a reader, and points that ask for reads against it. */
class ReadErrorsTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private void assertOnly(SiteFiles files, String expected) {
        assertThat(files.errors()).singleElement().asString().startsWith(expected);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "pause: 11 s # 98: types.hot-water.pause: must be 0 s to 10 s (was '11 s')",
                "pause: 20 # 98: types.hot-water.pause: must be a number with ms, s, min or h, like '2 s' (was '20')",
                "tables: mirrored # 99: types.hot-water.tables: must be one of mirror, separate (was 'mirrored'); did you mean 'mirror'?",
                "max-registers: 0 # 106: types.hot-water.max-registers: must be 1 to 125 (was 0)",
                "max-registers: 126 # 106: types.hot-water.max-registers: must be 1 to 125 (was 126)",
                "max-registers: [8] # 106: types.hot-water.max-registers: must be a single value",
                "max-registers: {default: 126} # 116: types.hot-water.max-registers.default: must be 1 to 125 (was 126)",
                "max-registers: {defalt: 8} # 107: types.hot-water.max-registers.defalt: must be a table and its addresses, like holding-register 900-999 (was 'defalt'); did you mean 'default'?",
                "max-registers: {holding-register 0-9: 8} # 107: types.hot-water.max-registers.holding-register 0-9: must be 1 to 65536, since the numbering of type hot-water is data-model (was '0')",
                "max-registers: {holding-register 1-65537: 8} # 107: types.hot-water.max-registers.holding-register 1-65537: must be 1 to 65536, since the numbering of type hot-water is data-model (was '65537')",
                "max-registers: {holding-register 9-1: 8} # 107: types.hot-water.max-registers.holding-register 9-1: must run from the lower address to the higher (was '9-1')",
                "max-registers: {holding-register 1..9: 8} # 107: types.hot-water.max-registers.holding-register 1..9: must be a table and its addresses",
                "max-registers: {holding-registers 1-9: 8} # 107: types.hot-water.max-registers.holding-registers 1-9: must begin with one of coil, discrete-input, input-register, holding-register (was 'holding-registers'); did you mean 'holding-register'?",
                "max-registers: {coil 1-9: 8} # 107: types.hot-water.max-registers.coil 1-9: counts registers, and a coil is none",
                "max-registers: {holding-register 1-9: 0} # 129: types.hot-water.max-registers.holding-register 1-9: must be 1 to 125 (was 0)",
                "max-registers: {holding-register 1-9: 8, holding-register 9: 4} # 132: types.hot-water.max-registers.holding-register 9: overlaps holding-register 1-9 (wire 0..8)",
                "read-clearing: starts # 106: types.hot-water.read-clearing: must be a list",
                "read-clearing: [starts] # 107: types.hot-water.read-clearing: must name rows of points/hot-water.csv that say clears under on-read (was 'starts')"
            })
    void aMistakeInWhatATypeAsksOfAReaderIsToldWithItsPlace(String key, String expected) {
        SiteFiles files =
                new SiteFiles(folder).spoil("site.yaml", "order: low-word-first", "order: low-word-first, " + key);
        assertThat(files.errors())
                .singleElement()
                .asString()
                .startsWith("site.yaml:7:")
                .contains(":" + expected);
    }

    @Test
    void rangesOfTwoTablesOverlapWhereTheTablesAreOne() {
        String ranges = "max-registers: {holding-register 1-9: 8, input-register 5-12: 4}";
        SiteFiles files =
                new SiteFiles(folder).spoil("site.yaml", "order: low-word-first", "tables: separate, " + ranges);
        assertThat(files.errors()).isEmpty();
        files.spoil("site.yaml", "order: low-word-first", "tables: mirror, " + ranges);
        assertThat(files.errors())
                .singleElement()
                .asString()
                .contains("input-register 5-12: overlaps holding-register 1-9 (wire 0..8)");
    }

    @Test
    void aReplyUnitIsItsOwnOrAny() {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", "unit: 1,", "unit: 1, reply-unit: 2,");
        assertOnly(files, "site.yaml:9:48: controllers.boiler-1.reply-unit: must be one of any (was '2')");
    }

    @ParameterizedTest
    @CsvSource({"'tcp: {host: 127.0.0.1, port: 1502}', false", "'rtu-over-tcp: {host: 127.0.0.1, port: 7001}', true"})
    void anyReplyUnitIsWarnedOfWhereRepliesOfSeveralUnitsLookAlike(String endpoint, boolean warned) {
        SiteFiles files = new SiteFiles(folder);
        String any = SiteFiles.SITE
                .replace("tcp: {host: 127.0.0.1, port: 1502}", endpoint)
                .replace("unit: 1,", "unit: 1, reply-unit: any,");
        files.write("site.yaml", any);
        assertThat(warnings(files)).isEmpty();
        files.write(
                "site.yaml",
                any.replace(
                        "bacnet:",
                        "  boiler-2: {line: annex, unit: 2, type: hot-water, instance-base: 2000}\nbacnet:"));
        if (warned) {
            assertThat(warnings(files))
                    .singleElement()
                    .asString()
                    .startsWith("site.yaml:9:48: controllers.boiler-1.reply-unit: with 'any', a late reply of one of"
                            + " the 2 controllers on line annex");
        } else {
            assertThat(warnings(files)).isEmpty();
        }
    }

    private static List<String> warnings(SiteFiles files) {
        return files.load().problems().stream()
                .filter(Problem::isWarning)
                .map(Problem::toString)
                .filter(text -> !text.contains("no binding"))
                .toList();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "max-registers: 2 # b,input-register,1,uint64,status,,, # 3:18: address: b at input-register 1 (wire 0) takes 4 registers, and max-registers of type hot-water allows 2 in one read",
                "max-registers: {input-register 2-3: 1} # b,input-register,1,uint32,status,,, # 3:18: address: b at input-register 1 (wire 0) takes 2 registers, and max-registers of type hot-water allows 1 in one read of input-register 2-3 (wire 1..2)",
                "max-registers: {default: 2, input-register 1-4: 4} # b,input-register,2,uint64,status,,, # 3:18: address: b at input-register 2 (wire 1) takes 4 registers, and max-registers of type hot-water allows 2 in one read",
                "max-registers: 2 # b,holding-register,3,uint16,status,g,, # 2:36: read-group: group g, holding-register 1-3 (wire 0..2), takes 3 registers, and max-registers of type hot-water allows 2",
                "pause: 0 ms # ,holding-register,1,reserved,,,, # 2:36: read-group: group g, holding-register 1-2 (wire 0..1), reaches into holding-register 1 (wire 0), which line 3 reserves",
                "pause: 0 ms # b,holding-register,2,reserved:9,,,, # 2:36: read-group: group g, holding-register 1-2 (wire 0..1), reaches into holding-register 2-10 (wire 1..9), which line 3 reserves",
                "tables: mirror # ,input-register,2,reserved,,,, # 2:36: read-group: group g, holding-register 1-2 (wire 0..1), reaches into input-register 2 (wire 1), which line 3 reserves",
                "pause: 0 ms # ,holding-register,3,reserved,,,twice, # 3:32: verify: means nothing for 'reserved'",
                "pause: 0 ms # ,holding-register,,reserved,,,, # 3:19: address: is empty; every row needs one",
                "pause: 0 ms # ,holding-register,9,reserved:0,,,, # 3:21: format: takes 1 to 65536 addresses (was 'reserved:0')",
                "pause: 0 ms # ,holding-register,9,reserved:x,,,, # 3:21: format: takes 1 to 65536 addresses (was 'reserved:x')",
                "pause: 0 ms # ,holding-register,65536,reserved:2,,,, # 3:19: address: a reserved:2 at 65536 (wire 65535) runs past the end of its table",
                "pause: 0 ms # ,holding-register,9,reserved,ststus,,, # 3:30: role: must be one of",
                "pause: 0 ms # b,holding-register,9,uint16,status,,,clear # 3:38: on-read: must be one of clears (was 'clear'); did you mean 'clears'?",
                "pause: 0 ms # b,holding-register,9,uint16,status,h,,clears # 3:36: read-group: what a read clears is read once and alone",
                "pause: 0 ms # b,holding-register,9,uint32,status,,twice,clears # 3:37: verify: what a read clears is read once and alone",
                "pause: 0 ms # b,holding-register,9+12,uint32,status,,,clears # 3:20: address: what a read clears is read once, and words that are apart need three reads",
                "pause: 0 ms # b,holding-register,2,uint16,status,,,clears # 2:36: read-group: group g, holding-register 1-2 (wire 0..1), would clear b (line 3): what a read clears is in no other read",
                "tables: mirror # b,input-register,2,uint16,status,,,clears # 2:36: read-group: group g, holding-register 1-2 (wire 0..1), would clear b (line 3)"
            })
    void aReadThatTheControllerDoesNotAllowIsRefused(String type, String row, String expected) {
        SiteFiles files = new SiteFiles(folder)
                .spoil("site.yaml", "order: low-word-first", "order: low-word-first, " + type)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role,read-group,verify,on-read\n"
                                + "a,holding-register,1,uint32,status,g,,\n" + row + "\n");
        assertThat(files.errors()).singleElement().asString().startsWith("points/hot-water.csv:" + expected);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "b,holding-register,10,uint16,status, # 3:20: address: b at holding-register 10 (wire 9) would clear a (line 2)",
                "b,holding-register,10,uint16,status,clears # 3:20: address: b at holding-register 10 (wire 9) would clear a (line 2)",
                "b,holding-register,9,int32,status, # 3:20: address: b at holding-register 9 (wire 8) would clear a (line 2)"
            })
    void whatAReadClearsIsInNoReadOfOthers(String row, String expected) {
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role,on-read\na,holding-register,9,uint32,status,clears\n" + row
                                + "\n");
        assertOnly(files, "points/hot-water.csv:" + expected);
    }

    @Test
    void aListOfNothingButReservedAddressesIsNoList() {
        SiteFiles files = new SiteFiles(folder)
                .write("points/hot-water.csv", "name,table,address,format,role\n,coil,1,reserved,\n");
        assertOnly(files, "points/hot-water.csv: must hold at least one point");
    }

    @Test
    void aClearedPointMayBeNoDecimalsOfAnother() {
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role,scale-by,on-read\na,holding-register,1,uint16,status,b,\n"
                                + "b,holding-register,2,uint16,status,,clears\n");
        assertThat(files.errors()).singleElement().asString().contains("scale-by: must name a point of this list");
    }
}
