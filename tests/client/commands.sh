#!/bin/bash
# Drives the built program: commands.sh PATH-OF-ROWPROOF. Commands on files for real; commands to a
# server against an address where nobody listens, which shows that each one sends its request. All
# ball bands are invented.
set -u
program=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
unset ROWPROOF_TOKEN ROWPROOF_SERVER
export LC_ALL=C.UTF-8  # metric units first
failures=0

fail() {
  echo "FAILED: $*"
  failures=$((failures + 1))
}

# expect CODE ARGUMENTS...: the exit code; a failure tells one line on standard error.
expect() {
  local code=$1 got lines
  shift
  "$program" "$@" >out 2>err </dev/null
  got=$?
  [ "$got" = "$code" ] || fail "$* ended with $got, not $code: $(head -c 300 err)"
  lines=$(wc -l <err)
  if [ "$code" -gt 1 ]; then
    [ "$lines" = 1 ] || fail "$* told $lines lines on standard error"
    [ -s out ] && fail "$* wrote to standard output while it failed"
  elif [ -s err ]; then
    fail "$* told something on standard error: $(cat err)"
  fi
}

# tells TEXT: the last command's output or error has it.
tells() { grep -qF -- "$1" out err || fail "\"$1\" is not in: $(cat out err)"; }

# An invented chart that can be worked, and one with three faults.
printf 'A,A,A,A,A,A\nB,B,A,B,B,B\nA,A,A,A,A,A\nB,B,B,B,B,B\nA,A,A,A,A,A\n' >good.csv
printf 'A,A,A,A,A,A\nB,A,A,B,B,B\nA,B,A,A,B,A\nB,B,A,B,A,B\nA,A,A,A,A,B\n' >bad.csv
printf 'P1\n3 2\n111\n111\n' >only_b.pbm
convert -size 3x3 xc:white -fill red -draw 'point 0,0' -fill blue -draw 'point 1,1' three.png ||
  fail "ImageMagick made no picture"
head -c 40 three.png >cut_off.png
gauge="--stitches-per-10cm 18 --rows-per-10cm 20 --wpi 9"

expect 0 check good.csv
expect 1 check bad.csv
tells "row 3, st 2"
expect 1 check only_b.pbm
tells "--swap-colours"
expect 0 check good.csv --json
tells '"findings": []'
tells '"swapColoursOffered": false'
expect 0 repair bad.csv --out mended.csv
tells "Read 6 stitches x 5 rows from bad.csv (an entry for each cell, sure)."
tells "3 changes make the chart workable. No smaller set of changes does."
expect 0 repair bad.csv --details
tells "row    5"
expect 0 check mended.csv
expect 0 repair bad.csv --out mended.pbm --json
tells '"editCount": "3"'
expect 0 check mended.pbm
expect 0 rows mended.csv --json
tells '"stitchCount": 6'
expect 0 rows mended.csv --hand left --facing one-face --ends carried
expect 0 rows good.csv --terms uk --repeats asterisk --nesting 1 --every-row \
  --colour-name cream --colour-name "dark blue"
tells "(RS, cream): dc in 2nd ch from hook"
tells "(WS, dark blue)"
expect 0 estimate good.csv $gauge --json
for key in yarns lengthMm parts kind widthMm heightMm; do tells "\"$key\""; done
expect 0 estimate good.csv $gauge --ball-m 125 --ball-g 50 --tail-mm 100 --slack 0.1
tells "yd"
expect 0 estimate good.csv $gauge --json
for key in widthIntervalMm share coverage lengthContributions workingTimeIntervalMinutes; do tells "\"$key\""; done
expect 0 estimate good.csv --gauge 14x16/4in --gauge "29 sts x 33 rows / 20 cm" --weight-class 4 \
  --ball "210 yd/100 g" --yarn "B: class=4; ball=125 m/50 g; fibre=cotton" --hook-mm 5.5 \
  --border 2:A:double --fringe A:10x8cm --swatch 10x10 --item blanket --draw yarn.svg \
  --width 20cm --height 8in
for words in "hook 5.5 mm (US I-9)." "Finished: " "Buy" "Cutting, carrying or waiting: yarn and time" \
  "does not fit" "Nearest repeats" "--details shows"; do tells "$words"; done
expect 0 estimate good.csv --gauge 14x16/4in --weight-class 4 --units imperial
tells "yd ("
[ "$(wc -l <out)" -le 24 ] || fail "the estimate does not fit a screen"
expect 0 estimate good.csv --gauge 14x16/4in --weight-class 4 --item blanket --details
for words in "Share" "With one more in 10 cm" "Standard uncertainty" "Assumed" "Cautions"; do
  tells "$words"
done
[ "$(awk '{ if (length($0) > most) most = length($0) } END { print most }' out)" -le 100 ] ||
  fail "the estimate is wider than 100 columns"
[ -s yarn.svg ] || fail "yarn.svg was not written"
# An invented swatch of 400 sc, a tenth longer than assumed.
swatch="--stitches sc=400 --gauge 20x25/10cm --wpi 12.7"
expect 0 calibrate --name Oat $swatch --length 15.65m --step 1cm
for words in 'Calibration "Oat" of 1 measurement:' "39.0 mm (1.54 in)" "Good to"; do tells "$words"; done
expect 0 calibrate --name Oat $swatch --length 15.65m --step 1cm --details
tells "35.6 mm (1.40 in)"
[ "$(awk '{ if (length($0) > most) most = length($0) } END { print most }' out)" -le 100 ] ||
  fail "the calibration is wider than 100 columns"
expect 0 calibrate --name Oat $swatch --mass 6.26g --tex 400 --json --out oat.json
expect 0 estimate good.csv $gauge --calibration oat.json
tells "Calibration used: Oat."
expect 0 calibrate --name none $swatch --length 17.1yd --tails 30cm --row-starts 20
expect 2 calibrate --name Oat
expect 2 calibrate --name Oat $swatch
expect 2 calibrate --name Oat --stitches 400 --length 1m
expect 3 calibrate $swatch --length 15.65m
expect 3 calibrate --name Oat $swatch --length 15.65
expect 3 calibrate --name Oat $swatch --length 39.7m
tells "measurements[0].swatch.length_mm"
# Invented texts, as they come from several systems.
printf '\357\273\277Terms: US\r\nRow 1 (RS, cream): sc 2, *ssc, sc; rep from * 2 more times. (8 sts)\r\n' >text.txt
expect 0 read text.txt --colour-name cream
for words in "Terms: US, as stated" "sc 2, [ssc, sc] 3 times" "Colour A: cream"; do tells "$words"; done
[ "$(awk '{ if (length($0) > most) most = length($0) } END { print most }' out)" -le 100 ] ||
  fail "the rows read are wider than 100 columns"
expect 0 read text.txt --colour-name cream --json
tells '"says": "sc 2, [ssc, sc] 3 times"'
expect 1 read text.txt
tells "cream"
printf 'Row 1: xs 2 (3), dc.\n' >own.txt
expect 0 read own.txt --terms uk --stitch xs=drop --size-name S --size-name M
tells "drop 2 (3), dc"
"$program" read - --terms us <text.txt >out 2>err
[ $? = 1 ] || fail "standard input was not read as the text"
# Both texts, in the service's own words and with one fault.
"$program" rows good.csv --json --every-row | sed -n 's/^ *"text": "\(.*\)",$/\1/p' >equal.txt
expect 0 compare good.csv equal.txt
tells "say the same in every size"
expect 0 compare good.csv equal.txt --all-rows --json
tells '"equal": true'
tells '"agreement": "ROW_AGREEMENT_AGREES"'
sed 's/ssc/sc/' equal.txt >differs.txt
expect 1 compare good.csv differs.txt
for words in "do not say the same" "Right would be: Row 5" "--details shows the rows"; do
  tells "$words"
done
expect 1 compare good.csv differs.txt --details
for words in "differs" "4 rows that agree"; do tells "$words"; done
[ "$(awk '{ if (length($0) > most) most = length($0) } END { print most }' out)" -le 100 ] ||
  fail "the comparison is wider than 100 columns"
expect 1 compare good.csv equal.txt --hand left --terms uk --technique overlay
sed 's/(RS, A)/(RS, cream)/; s/(WS, B)/(WS, slate)/' equal.txt >named.txt
expect 0 compare good.csv named.txt --colour-name cream --colour-name slate
for kind in png svg pdf; do
  expect 0 draw good.csv --out chart.$kind
  [ -s chart.$kind ] || fail "chart.$kind was not written"
done

# Every technique, facing, form and way with the ends.
expect 0 check good.csv --technique overlay
expect 0 check good.csv --technique inset
expect 0 check good.csv --facing paired
expect 0 check good.csv --form tube
expect 1 check good.csv --ends waiting
tells "waiting"
expect 0 check good.csv --form tube --technique overlay --json
tells '"findings": []'

# Conversions: there, back, and what changes.
expect 0 convert good.csv --to-chart working --out working.csv
tells "working chart"
expect 0 check working.csv --chart working
expect 1 check good.csv --chart working
tells "use --chart picture."
expect 0 convert working.csv --chart working --to-chart picture --out back.csv
cmp -s good.csv back.csv || fail "picture -> working -> picture changed the chart"
expect 0 convert good.csv --technique overlay --to-technique inset --out inset.csv $gauge
for words in "worked rows" "200 %" "yarn A" "What changes for the maker"; do tells "$words"; done
cmp -s good.csv inset.csv || fail "overlay -> inset changed the picture"
expect 0 convert inset.csv --technique inset --to-technique spike --to-facing two-face \
  --to-ends carried --json
tells '"technique": "TECHNIQUE_SPIKE"'
tells '"aspect": "MAKER_ASPECT_ENDS"'
printf 'A,A,A,A\nB,B,B,B\nA,A,A,B\nB,B,B,B\nA,A,A,A\n' >edge.csv
expect 0 convert edge.csv --to-technique overlay --gauge 14x16/4in --gauge-after 13x14/4in --wpi 9
tells "1 cell of the chart as it was had to change"

# Repairs that keep to something, repeats, import and export.
expect 0 repair bad.csv --symmetry left-right --lock 5:all --longest-run 3
expect 0 repair bad.csv --out mended.png --json
tells '"lowerBound": "3"'
tells '"optimal": true'
expect 0 check mended.png
printf '.,.,.,.,.,.,.,.\n.,x,.,x,.,x,.,x\n.,.,.,.,.,.,.,.\n.,.,.,.,.,.,.,.\n' >full.csv
expect 1 check full.csv
tells "use --chart working."
expect 0 repeats full.csv --chart working --out reduced.csv
tells "4 times"
tells "--stitch-band 1-2 --size drawn:4x1"
expect 0 check reduced.csv --chart working --stitch-band 1-2 --size drawn:4x1
tells "multiple of 2"
for kind in png pbm pgm ppm csv tsv; do
  expect 0 export bad.csv --out copy.$kind
  expect 0 import copy.$kind --out again.csv
  tells "Read 6 stitches x 5 rows from copy.$kind ("
  cmp -s bad.csv again.csv || fail "what was exported as $kind came back changed"
done
expect 0 export bad.csv --plain --scale 3 --out copy.ppm --shade A=#f2e6cf --shade B=#1e3a5f
head -c 2 copy.ppm | grep -q P3 || fail "--plain wrote another kind"
expect 0 import copy.ppm --out again.csv
cmp -s bad.csv again.csv || fail "a picture of shades came back changed"

# More than two colours, by the letters of the cells.
printf 'C,C,C\nB,C,B\nA,A,A\n' >three.csv
expect 0 check three.csv --row-colours ABC
expect 0 export three.csv --row-colours ABC --out three_colours.png --scale 4
expect 0 check three_colours.png --row-colours ABC
expect 0 draw three.csv --row-colours ABC --out chart.png
for show in picture working face-1 face-2; do
  expect 0 draw good.csv --show $show --out $show.png --title "Reed Mat (invented)" --cell-pixels 8
  [ -s $show.png ] || fail "$show.png was not written"
done
expect 0 draw good.csv --show face-1 --out face.pdf --paper letter --cell-mm 25 $gauge \
  --foundation worked --foundation-colour B --wrong-side-share 0.5 --shade A=#f2e6cf --colour-name Oat

# One set of options for every command.
all="--technique spike --facing two-face --ends cut --chart picture --hand right --terms us
  --tolerance 3 --stitch-band 2-3 --row-band 2-3 --size small:1x1 --size wide:4x2 --tail-mm 120
  --slack 0.05 --size-name wide $gauge"
for command in check repair rows estimate import; do expect 0 $command good.csv $all; done
expect 0 convert good.csv $all --to-chart working
expect 0 draw good.csv $all --out chart.png
"$program" check - <good.csv >out 2>err || fail "standard input was not read as the chart"

# A sum by kind of more than 40 findings, the list with --details.
awk 'BEGIN { for (row = 1; row <= 31; ++row) { line = ""
  for (stitch = 1; stitch <= 40; ++stitch) line = line (stitch > 1 ? "," : "") \
    ((row % 2 == 1) == (stitch % 3 == 0) ? "B" : "A"); print line } }' >many.csv
expect 1 check many.csv
tells "--details lists them one by one."
[ "$(wc -l <out)" -le 24 ] || fail "the sum of findings does not fit a screen"

# A design file: what is written of options does the same as they do, and options override it.
options="--technique spike --facing two-face --ends cut --foundation worked --foundation-colour B
  --stitch-band 2-3 --row-band 2-3 --size small:1x1 --size wide:4x2 --gauge 14x16/4in --weight-class 4
  --border 2:A:double --fringe A:10x8cm --slack 0.07 --hook-mm 5.5 --item blanket
  --colour-name cream --colour-name slate --terms uk --crop 0,0,0,0"
cp good.csv mat.csv
band="210 yd/100 g"
yarn="B: name=Ink; ball=125 m/50 g"
expect 0 design new mat.csv $options --ball "$band" --yarn "$yarn"
tells "Wrote mat.toml."
expect 3 design new mat.csv
tells "exists already"
for command in check rows estimate; do
  expect 0 $command good.csv $options --ball "$band" --yarn "$yarn" --json
  mv out by_options
  expect 0 $command mat.csv --json
  cmp -s out by_options || fail "$command by the design file differs: $(diff out by_options | head -5)"
done
expect 0 check mat.csv
tells "Design file: mat.toml."
expect 0 design show mat.csv --technique overlay
for words in "--technique" "line " "Foundation" "worked"; do tells "$words"; done
expect 0 design show mat.csv --json
tells '"foundationColour": "COLOUR_B"'
expect 0 rows mat.csv --terms us
tells "sc"
expect 0 check mat.csv --no-design
grep -q "Design file" out && fail "--no-design read a design file"
printf 'technique = "spike"\ntecnique = "spike"\n' >wrong.toml
expect 3 check good.csv --design wrong.toml
tells 'wrong.toml, line 2: there is no key "tecnique"; did you mean "technique"?'
head -c 70000 /dev/zero | tr '\0' '#' >large.toml
expect 3 check good.csv --design large.toml
expect 4 check good.csv --design nowhere.toml
rm mat.toml

# Wrong command lines.
expect 2
expect 2 check
tells 'FILE is missing (see "rowproof check --help")'
expect 2 chek good.csv
tells '"rowproof" has no command "chek"; did you mean "check"?'
expect 2 pattern lits
tells 'did you mean "list"?'
expect 2 pattern
tells '"rowproof pattern" needs one of its commands'
expect 2 check good.csv --tecnique spike
tells '"rowproof check" has no option "--tecnique"; did you mean "--technique"?'
expect 2 check good.csv --bogus
expect 2 check good.csv --technique knotted
tells '--technique must be spike, overlay or inset (got "knotted")'
expect 2 check good.csv --stitch-band 3
expect 2 check good.csv --size a:0x1
expect 2 draw good.csv
expect 2 draw good.csv --out chart.gif
expect 2 repair good.csv --out chart.gif
expect 2 repair good.csv --symmetry upside-down
expect 2 read
expect 2 read own.txt --stitch xs=knot
expect 2 compare good.csv
expect 2 compare - -
expect 2 repair good.csv --lock 5
expect 2 convert good.csv
expect 2 convert good.csv --to-technique knotted
expect 2 convert good.csv --to-technique inset --out chart.svg
expect 2 export good.csv
expect 2 export good.csv --out chart.svg
expect 2 export good.csv --out chart.png --shade B=#222222
expect 2 draw good.csv --out chart.png --show face-3
expect 2 check good.csv --row-colours ABX
tells "--row-colours"
expect 2 check good.csv --grid 12/x
expect 2 check good.csv --crop 1,2
expect 2 call PatternService.Nothing
expect 2 pattern list --server example.org:1 --token-file good.csv

# Refused content, by the name of what was met.
expect 3 check three.png
tells "#ff0000"
expect 3 check cut_off.png
expect 3 check /dev/null
expect 3 repair bad.csv --lock 9:1
tells "--lock"
expect 3 repair bad.csv --lock all:1
tells "locked"
expect 3 repair bad.csv --longest-run -1
tells "--longest-run"
expect 3 convert good.csv --to-technique overlay --to-ends carried
tells "--to-ends"
expect 3 convert good.csv --form tube --to-technique inset
expect 3 check good.csv --longest-skip -1
tells "--longest-skip"
expect 3 repeats good.csv --answers 101
tells "--answers"
expect 3 draw good.csv --out chart.png --cell-pixels 2
tells "--cell-pixels"
expect 3 draw good.csv --out chart.png --size-name XL
expect 3 export good.csv --out chart.png --scale 5000
tells "--scale"
expect 3 import good.csv --tolerance 256
tells "--tolerance"
expect 3 check good.csv --row-colours ABC
tells "--row-colours"
expect 3 rows good.csv --nesting 7
tells "--nesting"
expect 3 rows good.csv --colour-name cream
tells "--colour-name"
expect 3 check good.csv --tolerance 300
tells "0 to 255"
expect 3 check good.csv --stitch-band 3-9
expect 3 estimate good.csv --wpi 9
tells "--stitches-per-10cm"
expect 3 estimate good.csv --stitches-per-10cm 18 --rows-per-10cm 20
tells "--wpi"
expect 3 estimate good.csv $gauge --slack nan
expect 3 estimate good.csv --gauge 14x16/4 --wpi 9
tells "--gauge"
expect 3 estimate good.csv $gauge --ball "125/50 g"
tells "--ball"
expect 3 estimate good.csv $gauge --width 20
tells "--width"
expect 2 estimate good.csv $gauge --draw yarn.pdf
expect 2 estimate good.csv $gauge --yarn "B: thick"
expect 3 estimate good.csv $gauge --tail-mm -5

printf 'Row 1: \377\n' >latin.txt
expect 3 read latin.txt
tells "UTF-8"
printf 'Row 1: sc\001\n' >control.txt
expect 3 read control.txt
tells "TEXTFILE"
expect 3 compare good.csv control.txt
expect 3 read own.txt --stitch ch=drop
tells "--stitch"

# Absent.
expect 4 check nowhere.csv
tells "nowhere.csv"
expect 4 check .
expect 4 compare good.csv nowhere.txt

# Any method in this process, without a server.
echo '{"design":{"chart":{"rowCount":1,"stitchCount":1,"cells":"AA=="}}}' |
  "$program" call rowproof.v1.ChartService/CheckChart --local >out 2>err ||
  fail "a local call failed: $(cat err)"
tells '"workable": true'
echo '{"desgn":{}}' | "$program" call ChartService.CheckChart --local >out 2>err
[ $? = 3 ] || fail "a field that does not exist was accepted"
# A kept calibration is the server's: there is none in this process.
echo '{"design":{"chart":{"rowCount":1,"stitchCount":1,"cells":"AA=="}},
  "materials":{"calibration":"calibrations/c"}}' >kept.json
"$program" call ChartService.EstimateChart --local <kept.json >out 2>err
[ $? = 4 ] || fail "a kept calibration was found without a server: $(cat err)"
expect 3 call ChartService.CheckChart --local
tells "design.chart"

# Every command to a server sends its request; nobody listens on port 1. They wait for it beside each
# other, and are looked at in the end.
calls=0
away() {
  calls=$((calls + 1))
  echo "$*" >"command.$calls"
  { "$program" "$@" --server 127.0.0.1:1 --timeout 0.2 >"out.$calls" 2>"err.$calls" </dev/null
    echo $? >"code.$calls"; } &
  [ $((calls % 8)) != 0 ] || wait
}
echo '{}' >empty.json
printf 'Seat: patterns/p/testCalls/c/seats/s\nInvitation: abc\n' >offer.txt
echo 'seat: patterns/p/testCalls/c/seats/s' >form.txt
away call PatternService.ListPatterns
away pattern new Title
away pattern list
away pattern show patterns/p
away pattern list --archived
away pattern archive patterns/p --etag e
away pattern unarchive patterns/p
away pattern rename patterns/p Title --etag e
away editor invite patterns/p --label Name --days 3
away editor accept offer.txt --name Name --mail m@example.org
away editor show patterns/p/editors/a
away editor remove patterns/p/editors/a
away editor list patterns/p
away version submit patterns/p good.csv $all --title T --level L --note N --parent patterns/p/versions/1 \
  --introduction form.txt --notes form.txt --finishing form.txt --validate-only
away version submit patterns/p good.csv --materials empty.json
away version list patterns/p
away version show patterns/p/versions/1
away version submit patterns/p good.csv $all --text text.txt
away version text patterns/p/versions/1
away version compare patterns/p/versions/1 --all-rows
away version rows patterns/p/versions/1 --hand left --terms us --nesting 3 \
  --repeats asterisk --every-row
away version difference patterns/p/versions/1 patterns/p/versions/2
away version estimate patterns/p/versions/1 --materials empty.json
away calibration new Title empty.json --technique spike --facing paired --ends waiting --note N \
  $swatch --weight-class 4 --length 15.65m --swatch-note N
away calibration add calibrations/c $swatch --mass 6g --tex 400 --leave-out 1 --note N --etag e
away calibration list --technique inset --weight-class 4
away calibration show calibrations/c
away calibration show calibrations/c/revisions/1
away calibration revisions calibrations/c
away calibration rename calibrations/c Title --etag e
away calibration delete calibrations/c --etag e
away estimate good.csv $gauge --calibration calibrations/c
away convert good.csv --to-technique overlay $gauge --calibration calibrations/c/revisions/2
away version estimate patterns/p/versions/1 --calibration calibrations/c
away account show
away account rename --name Name --mail m@example.org
away account tokens
away account new-token label --days 3
away account show-token accounts/a/tokens/t
away account revoke-token accounts/a/tokens/t
away account export
away account erase accounts/a
settings="--title T --want small:2:1 --want wide:1:0 --deadline 2026-12-31 --yarn same --hook free
  --swatch --confidential no --photographs-by-permission yes --reward R --language L
  --notes form.txt"
away testcall new patterns/p --version patterns/p/versions/1 $settings
away testcall change patterns/p/testCalls/c --etag e $settings
away testcall change patterns/p/testCalls/c --deadline ""
away testcall list patterns/p
away testcall delete patterns/p/testCalls/c
away testcall seats patterns/p/testCalls/c
for step in show open close reopen; do away testcall $step patterns/p/testCalls/c; done
away testcall send patterns/p/testCalls/c patterns/p/versions/2
away seat offer patterns/p/testCalls/c small
away seat mine
away seat offer-several patterns/p/testCalls/c small small wide
away seat take offer.txt --name Name --mail m@example.org
for step in show form changes give-up cancel; do away seat $step patterns/p/testCalls/c/seats/s; done
away report send form.txt
away report send form.txt --seat patterns/p/testCalls/c/seats/s --validate-only
away report enter patterns/p/testCalls/c/seats/s empty.json --validate-only
away report show patterns/p/testCalls/c/seats/s/reports/1
away report list patterns/p/testCalls/c
away erratum list patterns/p/testCalls/c --state open --withdrawn
away erratum show patterns/p/testCalls/c/errata/e
for step in accept decline reopen; do
  away erratum $step patterns/p/testCalls/c/errata/e --note N
done
away erratum confirm patterns/p/testCalls/c/errata/e met-it-too
away reconcile new patterns/p/testCalls/c
away reconcile list patterns/p/testCalls/c
away reconcile show patterns/p/testCalls/c/reconciliations/1
away reconcile set-aside patterns/p/testCalls/c/seats/s yarn-a --note N
away reconcile set-aside patterns/p/testCalls/c/seats/s yarn-border --note N
away reconcile set-aside patterns/p/testCalls/c/seats/s time --note N
away reconcile set-asides patterns/p/testCalls/c
away reconcile show-set-aside patterns/p/testCalls/c/setAsides/x
away reconcile take-back patterns/p/testCalls/c/setAsides/x
away release gates patterns/p/versions/1 --call patterns/p/testCalls/c
away release publish patterns/p/versions/1 --call patterns/p/testCalls/c \
  --pass-over 'errata-decided=the rest concerns photographs'
away release publish patterns/p/versions/1 --terms uk --repeats asterisk --validate-only
away release show patterns/p/releases/r
away release list patterns/p
away release withdraw patterns/p/releases/r --reason "a row is wrong"
away release fetch patterns/p/releases/r errata-sheet-text
wait
for call in $(seq $calls); do
  command=$(cat "command.$call")
  [ "$(cat "code.$call")" = 5 ] || fail "$command ended with $(cat "code.$call"): $(cat "err.$call")"
  [ "$(wc -l <"err.$call")" = 1 ] || fail "$command did not tell one line: $(cat "err.$call")"
  [ ! -s "out.$call" ] || fail "$command wrote to standard output while it failed"
done

expect 2 testcall new patterns/p --version v --title T --want small
expect 2 testcall change patterns/p/testCalls/c
grep -q "nothing to change: give at least one option" err || fail "an empty change is not named"
expect 2 release publish patterns/p/versions/1 --pass-over nothing
for quantity in beauty width-a yarn yarn-z; do
  expect 2 reconcile set-aside patterns/p/testCalls/c/seats/s $quantity --note N
done

"$program" --help >out
[ "$(wc -l <out)" -le 24 ] || fail "the help does not fit a screen"
for command in check repair repeats convert import export draw design rows compare read estimate \
  calibrate calibration pattern version editor account testcall seat report erratum reconcile \
  release call; do
  tells "$command "
  "$program" "$command" --help >help 2>err || fail "help on $command failed"
done
"$program" check --help >out
for words in "Chart:" "Output:" "--technique spike|overlay|inset" "Example: rowproof check"; do
  tells "$words"
done
grep -q -- "--ball" out && fail "the help of check shows an option of estimate"
for topic in "" "design new" "design show" check repair convert repeats import export draw estimate read compare version "version submit" "testcall new" release calibrate calibration seat; do
  "$program" $topic --help >out 2>err || fail "help on \"$topic\" failed"
  tells "Exit codes"
  [ "$topic" = "" ] || grep -q "xample\|COMMAND" out || fail "help on \"$topic\" has no example"
  wide=$(LC_ALL=C.UTF-8 awk 'length > 100' out)
  [ -z "$wide" ] || fail "help on \"$topic\" has lines over 100 columns: $wide"
done

[ $failures = 0 ] || { echo "$failures failures"; exit 1; }
echo "all commands did as they should"
