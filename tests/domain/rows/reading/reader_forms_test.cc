// Every form in which a row's stitches are written, with the stitches that it stands for.
#include "gtest/gtest.h"
#include "tests/domain/rows/read_stitches.h"

namespace rowproof::rows {
namespace {

struct Form {
  const char* body;
  const char* stitches;
  int below = 20;
};

void Expect(std::initializer_list<Form> forms, const ReaderSettings& settings = {}, int size = 0) {
  for (const Form& form : forms) {
    EXPECT_EQ(ReadBody(form.body, form.below, settings, size), form.stitches) << form.body;
  }
}

TEST(ReadForms, TermsWithTheirNumbers) {
  Expect({{"sc 3.", "..."},
          {"3 sc", "..."},
          {"3sc, ssc", "...x"},
          {"sc3, ssc", "...x"},
          {"sc, ssc, sc", ".x."},
          {"sc x 3", "..."},
          {"sc x3", "..."},
          {"sc \xc3\x97 3", "..."},
          {"3 x sc", "..."},
          {"sc 3 times", "..."},
          {"three sc, one ssc", "...x"},
          {"sc 3 and ssc 2", "...xx"},
          {"sc 3, then ssc", "...x"},
          {"sc 3; ssc; sc 1", "...x."},
          {"sc 3. ssc. sc 1.", "...x."},
          {"Sc 3, SSC 2", "...xx"},
          {"single crochet 2, spike single crochet", "..x"},
          {"2 single crochet, 1 spike single crochet in next st", "..x"},
          {"slip stitch 2, sl st", "sss"},
          {"hdc 2, half double crochet", "hhh"}});
}

TEST(ReadForms, WhatStitchesAreWorkedInto) {
  Expect({{"sc in next st", "."},
          {"sc in next 3 sts", "..."},
          {"sc in the next 3 stitches", "..."},
          {"sc in each of next 3 sts", "..."},
          {"sc in each of the next 3 sts", "..."},
          {"1 sc in each of next 3 sts", "..."},
          {"1 sc into each of next 3 sts, ssc", "...x"},
          {"3 sc in next 3 sts", "..."},
          {"sc in next 3 sc, ssc in next ssc", "...x"},
          {"sc in first st, sc in next 2 sts, sc in last st", "...."},
          {"sc in last 2 sts", ".."},
          {"3 sc in BLO", "..."},
          {"sc 3 in BLO", "..."},
          {"sc in BLO", "."},
          {"sc BLO 3", "..."},
          {"sc 3 (BLO)", "..."},
          {"sc 3 in back loop only", "..."},
          {"sc in BLO of next 3 sts", "..."},
          {"sc in the BLO of each of the next 3 sts", "..."},
          {"ssc in next st 2 rows below", "x"},
          {"ssc in st two rows below, sc 2", "x.."},
          {"mdc in FLO of next st 2 rows below", "m"},
          {"ch 1, sc in same st, sc 2", "..."},
          {"work sc in next 3 sts", "..."}});
}

TEST(ReadForms, TheStitchesLeft) {
  Expect({{"sc in each st across", ".....", 5},
          {"sc in each st", ".....", 5},
          {"sc in every st around", ".....", 5},
          {"sc across", ".....", 5},
          {"sc in each st to end", ".....", 5},
          {"sc in each st to the end of the row", ".....", 5},
          {"sc in BLO across", ".....", 5},
          {"sc 2, ssc in each st across", "..xxx", 5},
          {"sc in each st to last 2 sts, ssc 2", "...xx", 5},
          {"sc in each st across to last st, ssc", "....x", 5},
          {"sc to last 2 sts, ssc 2", "...xx", 5},
          {"sc in all sts", ".....", 5},
          {"ssc, sc in each remaining st", "x....", 5},
          {"ssc, sc in remaining sts", "x....", 5},
          {"sc 5, ssc in each st across", ".....", 5},
          {"sc 6, ssc in each st across", "...... runs short by 1", 5},
          {"sc in 2nd ch from hook and in each ch across", ".....", 5},
          {"sc in 2nd ch from hook, sc in each ch across", ".....", 5},
          {"starting in 2nd ch from hook, sc in each ch across", ".....", 5},
          {"sk first ch, sc in each ch across", ".....", 5},
          {"sc in each sc and ssc across", ".....", 5}});
}

TEST(ReadForms, GroupsInBracketsAndParentheses) {
  Expect({{"sc 2, [ssc, sc] 3 times, sc", "..x.x.x.."},
          {"(ssc, sc) 3 times", "x.x.x."},
          {"{ssc, sc} 3 times", "x.x.x."},
          {"[ssc, sc] twice", "x.x."},
          {"[ssc, sc] thrice", "x.x.x."},
          {"[ssc, sc] three times", "x.x.x."},
          {"[ssc, sc] x 3", "x.x.x."},
          {"[ssc, sc] x3", "x.x.x."},
          {"[ssc, sc] \xc3\x97 3", "x.x.x."},
          {"[ssc, sc] 3x", "x.x.x."},
          {"[ssc, sc] 3 times in all", "x.x.x."},
          {"[ssc, sc] a total of 3 times", "x.x.x."},
          {"[ssc, sc] once", "x."},
          {"[ssc, sc] 0 times, sc", "."},
          {"[[ssc, sc] twice, sc 2] twice, ssc", "x.x...x.x...x"},
          {"([ssc 2, (sc, ssc) 2 times] 2 times, sc) 2 times", "xx.x.xxx.x.x.xx.x.xxx.x.x."},
          {"sc 2, [ssc, sc] across", "..x.x.x.", 8},
          {"[ssc, sc] to last 2 sts, sc 2", "x.x.x...", 8},
          {"[ssc, sc] across to last 2 sts, sc 2", "x.x.x...", 8},
          {"[ssc, sc] around", "x.x.x.x.", 8},
          {"[ssc, sc] until 2 sts remain, sc 2", "x.x.x...", 8},
          {"[ssc, sc] until last 2 sts, sc 2", "x.x.x...", 8},
          {"[ssc, sc 2] across", "x..x.. leaves 2 over", 8},
          {"sc 6, [ssc, sc 2] across", "......x.. runs short by 1", 8}});
}

TEST(ReadForms, RepeatsFromAsterisks) {
  Expect({{"sc 2, *ssc, sc; rep from * across", "..x.x.x.", 8},
          {"sc 2, *ssc, sc, rep from * across", "..x.x.x.", 8},
          {"sc 2, *ssc, sc. Repeat from * across.", "..x.x.x.", 8},
          {"*ssc, sc; rep from * to end", "x.x.x.x.", 8},
          {"*ssc, sc; rep from * around", "x.x.x.x.", 8},
          {"*ssc, sc; rep from * to last 2 sts, sc 2", "x.x.x...", 8},
          {"*ssc, sc; rep from * across to last 2 sts, sc 2", "x.x.x...", 8},
          {"*ssc, sc; rep from * until last 2 sts, sc 2", "x.x.x...", 8},
          {"*ssc, sc; rep from * 2 more times, sc 2", "x.x.x..."},
          {"*ssc, sc; rep from * two more times, sc 2", "x.x.x..."},
          {"*ssc, sc; rep from * 2 times more, sc 2", "x.x.x..."},
          {"*ssc, sc; rep from * once more, sc 2", "x.x..."},
          {"*ssc, sc; rep from * once, sc 2", "x.x..."},
          {"*ssc, sc; rep from * twice more, sc 2", "x.x.x..."},
          {"*ssc, sc; rep from * 3 times in all, sc 2", "x.x.x..."},
          {"*ssc, sc; rep from * for a total of 3 times, sc 2", "x.x.x..."},
          {"*ssc, sc*; rep from * to * 2 more times, sc 2", "x.x.x..."},
          {"*ssc, sc* 3 times, sc 2", "x.x.x..."},
          {"*ssc, sc* twice, sc 2", "x.x..."},
          {"*[ssc, sc] twice, sc 2; rep from * across", "x.x...x.x...", 12},
          {"*sc, **ssc, sc; rep from ** once more, sc; rep from * across", ".x.x...x.x..", 12},
          {"[*ssc, sc; rep from * once more, sc 2] twice", "x.x...x.x..."},
          {"*ssc, sc; rep from * across", "x.x.x.x. leaves 1 over", 9}});
}

TEST(ReadForms, CountsListedBySize) {
  const ReaderSettings settings{
      .terms = {}, .sizes = {"S", "M", "L"}, .colours = {}, .definitions = {}};
  Expect({{"sc 1 (2, 3), ssc", ".x"},
          {"[ssc, sc] 1 (2, 3) times", "x."},
          {"*ssc, sc; rep from * 0 (1, 2) more times", "x."},
          {"1 (2, 3) sc", "."},
          {"sc in next 1 (2, 3) sts", "."},
          {"sc 1 [2, 3], ssc", ".x"},
          {"sc in each st to last 4 (3, 1) sts, ssc 4 (3, 1)", "..xxxx", 6}},
         settings, 0);
  Expect({{"sc 1 (2, 3), ssc", "...x"},
          {"[ssc, sc] 1 (2, 3) times", "x.x.x."},
          {"*ssc, sc; rep from * 0 (1, 2) more times", "x.x.x."},
          {"1 (2, 3) sc", "..."},
          {"sc in next 1 (2, 3) sts", "..."},
          {"sc 1 [2, 3], ssc", "...x"},
          {"[ssc, sc] 0 (0, 2) times, sc 3", "x.x....", 7},
          {"sc in each st to last 4 (3, 1) sts, ssc 4 (3, 1)", ".....x", 6}},
         settings, 2);
}

TEST(ReadForms, ChainSpaces) {
  Expect({{"sc 4, ch 3, sk 2, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3, sk 2 sts, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3, sk next 2 sts, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3 and skip the next 2 stitches, sc 4", "....<3/2>....", 10},
          {"sc 4, ch-3, sk 2 sc, sc 4", "....<3/2>....", 10},
          {"sc 4, ch3, sk 2, sc 4", "....<3/2>....", 10},
          {"sc 4, 3 ch, sk 2, sc 4", "....<3/2>....", 10},
          {"sc 4, sk 2, ch 3, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3 over next 2 sts, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 2, sk next st, sc 4", "....<2/1>....", 10},
          {"sc 4, ch 3, sk ch-sp, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3, sk next ch-sp, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3, sk ch-3 sp, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3, sk the ch3-sp, sc 4", "....<3/2>....", 10},
          {"sc 4, ch 3, sk chain space, sc 4", "....<3/2>....", 10},
          {"[ch 1, sc 3] 2 times", "<1/0>...<1/0>...", 6},
          {"sc, [ch 3, sk 2, mdc] 2 times, sc", ".<3/2>m<3/2>m.", 10},
          {"sc, *ch 3, sk 2, mdc; rep from * across", ".<3/2>m<3/2>m<3/2>m", 10},
          {"sc 4, mdc in next 2 skipped sts, sc 2", "....mm..", 10}});
}

TEST(ReadForms, StartsEndsAndRemarks) {
  Expect({{"ch 1 (does not count as a st), sc 3", "..."},
          {"ch 1, does not count as a stitch, sc 3", "..."},
          {"ch 1, sc 3", "..."},
          {"Ch 1 and turn. Sc 3.", "..."},
          {"ch 2 (does not count as st), sc 3", "..."},
          {"turn, ch 1, sc 3", "..."},
          {"sc 3, ch 1, turn", "..."},
          {"sc 3. Turn, ch 1.", "..."},
          {"sc 3, turn. (3 sts)", "..."},
          {"sc 3. Do not turn.", "..."},
          {"sc 3. Don\xe2\x80\x99t turn. (3 sts)", "..."},
          {"sc 3. Fasten off.", "..."},
          {"sc 3. (3 sts) Fasten off A.", "..."},
          {"sc 3, FO", "..."},
          {"join B with sc in first st, sc 2", "..."},
          {"join B with a standing sc in first st, sc 2", "..."},
          {"join B with ssc in first st, sc 2", "x.."},
          {"join colour B with sl st in first st, ch 1, sc in same st, sc 2", "..."},
          {"join yarn with sl st, ch 1, sc 3", "..."},
          {"standing sc, sc 2", "..."},
          {"standing ssc in first st, sc 2", "x.."},
          {"with B, standing sc in first st, sc 2", "..."},
          {"with B: sc 3", "..."},
          {"With colour B, ch 1, sc 3", "..."},
          {"Using B, sc 3", "..."},
          {"with RS facing, sc 3", "..."},
          {"Side A, sc 3", "..."},
          {"sc 3, join with sl st to first st", "..."},
          {"sc 3, join with a sl st in first sc", "..."},
          {"sc 3. Join.", "..."},
          {"sc 3, sl st in first st to join", "..."},
          {"sc 3, sl st to first sc", "..."},
          {"sc 3, changing to B in last st", "..."},
          {"sc 3. Change to B.", "..."},
          {"sc 2, cut yarn", ".."},
          {"sc 3 (remember to carry A), ssc", "...x"},
          {"sc 3, (this is the centre) ssc", "...x"},
          {"sc 3, ssc (this ssc covers the sc below)", "...x"},
          {"sc 3 [centre], ssc", "...x"},
          {"ssc, sk st behind ssc, sc 2", "x.."}});
}

TEST(ReadForms, StitchesThatATextDefines) {
  const ReaderSettings settings{
      .terms = {}, .sizes = {}, .colours = {}, .definitions = {{"ls", TextStitch::kDrop}}};
  Expect({{"sc 3, ls, sc 2", "...x.."}, {"sc 3, LS 2", "...xx"}, {"2 ls, sc", "xx."}}, settings);
  const auto document = ReadRows(
      "Special stitches\n"
      "xs = drop\n"
      "ps: plain stitch.\n"
      "Long single crochet (lsc) = drop stitch, worked two rows down\n"
      "ssc - spike single crochet\n"
      "Row 3: ps 2, xs, lsc, ssc, sc.\n");
  ASSERT_TRUE(document.ok());
  ASSERT_TRUE(document->findings.empty()) << Sentence(document->findings.front());
  EXPECT_EQ(Shown(ExpandSteps(document->rows[0].steps, 0, {6, {}}).runs), "..xxx.");
  EXPECT_EQ(document->definitions.size(), 3u);
}

TEST(ReadForms, UkTerms) {
  ReaderSettings uk;
  uk.terms = chart::Terms::kUk;
  Expect({{"dc 3, sdc, dc", "...x."},
          {"dc 3, mtr, tr", "...md"},
          {"double crochet 2, spike double crochet, treble", "..xd"},
          {"htr, dtr, ss 2", "htss"},
          {"dc 2, ch 3, miss 2, dc 2", "..<3/2>.."},
          {"dc 2, ch 3, miss ch-sp, dc 2", "..<3/2>.."},
          {"1 dc in each of next 3 sts", "..."}},
         uk);
  ReaderSettings us;
  us.terms = chart::Terms::kUs;
  Expect({{"dc 3, tr, dtr", "dddtq"},
          {"double crochet, treble", "dt"},
          {"mosaic double crochet", "m"}},
         us);
}

}  // namespace
}  // namespace rowproof::rows
