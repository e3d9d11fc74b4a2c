# The machine rules of ISO 14289-1 over what qpdf tells of a PDF
# (qpdf --json=2): prints a line for each breach, none for a file that keeps
# them all. Clause numbers are those of ISO 14289-1:2014. With PAPER in the
# environment the file is a paper of an order, which has neither figures nor steps
# of sewing by need, and is to be scaled where nothing on it is in true size.

(env.PAPER // "" | . != "") as $paper
| .qpdf[1] as $objects
| def object($reference): $objects["obj:" + $reference] // {};
  def value($reference): object($reference).value // object($reference).stream.dict;
  def deref: if type == "string" and test("^[0-9]+ [0-9]+ R$")
             then value(.) else . end;
  def kids: [."/K" // empty | if type == "array" then .[] else . end];
  # Elements below one, in the order of reading, with their names and depth.
  def elements: [kids[] | select(type == "string") | . as $r | value($r)
                 | select(."/S") + {reference: $r}];
  def walk_tree: ., (elements[] | walk_tree);
  def text: if type == "string" then sub("^[ub]:"; "") else "" end;
  def names: [elements[]."/S"];

  value($objects.trailer.value."/Root") as $catalog
  | ($catalog."/StructTreeRoot" | deref) as $root
  | [($root | elements)[] | walk_tree] as $all
  | [$objects[] | .value? // empty | objects | select(."/Type" == "/Page")]
      as $some_pages
  | [($catalog."/Pages" | deref)."/Kids"[]] as $pages
  | (($catalog."/Names" | deref)."/Dests" | deref | ."/Names" // []) as $places
  | [range(0; $places | length; 2) as $i | $places[$i]] as $place_names
  | (($root."/ParentTree" | deref)."/Nums") as $parents

  # H1, 7.1: a tagged file, and nothing suspect about it.
  | (if $catalog."/MarkInfo"."/Marked" == true then empty
     else "H1 not marked as tagged" end),
    (if $catalog."/MarkInfo"."/Suspects" == true then "H1 suspects" else empty end),
    (if ($root | names) == ["/Document"] then empty
     else "H1 the root holds \($root | names)" end),

  # H3, 7.1 and 7.2: title, language, how it is shown and printed.
    (if $catalog."/ViewerPreferences"
        == {"/DisplayDocTitle": true, "/PrintScaling": "/None"} then empty
     elif $paper and $catalog."/ViewerPreferences" == {"/DisplayDocTitle": true}
     then empty
     else "H3 preferences \($catalog."/ViewerPreferences")" end),
    (if $catalog."/Lang" | text | length > 0 then empty
     else "H3 no language" end),
    (if ([$catalog."/Metadata" | deref | objects | ."/Subtype"]) == ["/XML"] then empty
     else "H3 no metadata" end),

  # H4, 7.3: words for every figure.
    ($all[] | select(."/S" == "/Figure")
     | if (."/Alt" | text | length) > 3 then empty
       else "H4 a figure without words, \(.reference)" end),
    (if $paper or ([$all[] | select(."/S" == "/Figure")] | length > 0) then empty
     else "H4 no figure" end),

  # H5, 7.4: the first heading is of the first level, none is skipped.
    ([$all[]."/S" | select(test("^/H[1-6]$")) | .[2:] | tonumber]
     | (if .[0] == 1 then empty else "H5 the first heading is H\(.[0])" end),
       (range(1; length) as $i | select(.[$i] > .[$i - 1] + 1)
        | "H5 heading \($i): H\(.[$i]) follows H\(.[$i - 1])")),

  # H6, 7.5: rows of cells, as many in each; heads say what they head.
    ($all[] | select(."/S" == "/Table") | . as $table
     | (if [elements[] | names | length] | unique | length == 1 then empty
        else "H6 rows of \([elements[] | names | length]) cells, \(.reference)" end),
       (if names - ["/TR"] == [] then empty else "H6 a table holds \(names)" end),
       (elements[] | names - ["/TH", "/TD"] | select(. != [])
        | "H6 a row holds \(.)"),
       (if [elements[0] | names[] | select(. == "/TH")] | length > 0 then empty
        else "H6 a table without a head, \(.reference)" end)),
    ($all[] | select(."/S" == "/TH")
     | if ."/A"."/Scope" == "/Column" then empty
       else "H6 a head without scope, \(.reference)" end),
    ($all[] | select(."/S" != "/TR") | select(names | any(. == "/TD" or . == "/TH"))
     | "H6 cells outside a row, \(.reference)"),

  # H7, 7.6: labels and bodies.
    ($all[] | select(."/S" == "/L") | names - ["/LI"] | select(. != [])
     | "H7 a list holds \(.)"),
    ($all[] | select(."/S" == "/LI")
     | if names == ["/Lbl", "/LBody"] then empty
       else "H7 an item holds \(names), \(.reference)" end),
    ($all[] | select(."/S" != "/L") | select(names | any(. == "/LI"))
     | "H7 items outside a list, \(.reference)"),

  # H8: the tree goes through the pages, and through the marks of each, from
  # first to last, as they were drawn.
    ([$all[] | . as $e | kids[] | numbers
      | {page: ($e."/Pg" as $p | $pages | index($p)), mark: .}]
     | (range(1; length) as $i
        | select([.[$i - 1].page, .[$i - 1].mark] >= [.[$i].page, .[$i].mark])
        | "H8 mark \(.[$i]) is read behind \(.[$i - 1])"),
       ([group_by(.page)[] | select([.[].mark] != [range(0; length)])
         | "H8 marks of page \(.[0].page) are missing"] | .[])),
    (if [$all[] | kids[] | numbers]
        | length > (if $paper then 12 else 50 end) then empty
     else "H8 hardly a mark" end),

  # H10, 7.17 and 7.18: links in their elements, told in words, leading somewhere.
    ($all[] | select(."/S" == "/Link") | . as $link
     | [kids[] | objects | select(."/Type" == "/OBJR") | value(."/Obj")]
     | if length != 1 then "H10 a link with \(length) annotations, \($link.reference)"
       else .[0]
         | (if ."/Contents" | text | length > 3 then empty
            else "H10 a link without words, \($link.reference)" end),
           (if ."/Dest" as $d | $place_names | index($d) then empty
            else "H10 a link to \(."/Dest"), which is nowhere" end),
           (."/StructParent" as $n
            | [range(0; $parents | length; 2) | select($parents[.] == $n)][0]
            | if . != null and $parents[. + 1] == $link.reference then empty
              else "H10 the tree does not know \($link.reference)" end)
       end),
    ($pages[] as $p | value($p) | select(."/Annots")
     | (if ."/Tabs" == "/S" then empty else "H10 no order of tabs on \($p)" end),
       (."/Annots"[] as $a
        | if any($all[] | select(."/S" == "/Link") | kids[] | objects;
                 ."/Obj" == $a) then empty
          else "H10 an annotation outside the structure, \($a)" end)),
    (if $place_names == ($place_names | sort) then empty
     else "H10 places are not sorted" end),
    (($catalog."/Outlines" | deref)
     | if ."/First" and ."/Count" > 0 then empty
       else "H10 no bookmarks, or less than none" end),

  # H9, 7.21.3.2: glyphs by number need their map.
    ($objects[] | .value? // empty | objects
     | select(."/Subtype" == "/CIDFontType2")
     | if ."/CIDToGIDMap" == "/Identity" then empty
       else "H9 \(."/BaseFont") without a map" end),

  # Every cloth is led to, and each step leads to its parts.
    ([$all[] | select(."/S" == "/Link") | kids[] | objects
      | value(."/Obj") | ."/Dest" | text] as $to
     | $place_names[] | text | select(startswith("cloth-")) | . as $name
     | if any($to[]; . == $name) then empty
       else "H10 no link to \($name)" end),
    ([$place_names[] | text | select(startswith("step-"))] as $steps
     # In the order of reading, s for a section, h for a heading below it, l for a
     # list with links to cloths and steps: one section is heads and lists by turns.
     | [$all[] | if ."/S" == "/H1" then "s" elif ."/S" == "/H2" then "h"
        elif ."/S" == "/L" and any(elements[] | elements[]
                     | select(."/S" == "/Lbl")
                     | elements[] | select(."/S" == "/Link") | kids[] | objects
                     | value(."/Obj") | ."/Dest" | text;
                     startswith("step-") or startswith("cloth-"))
        then "l" else empty end] | (add // "") / "s"
     | if $paper or
          (any(.[]; . == "hl" * ($steps | length)) and ($steps | length) > 0)
       then empty
       else "H10 \($steps | length) steps, but \(join(" "))" end),
    (if ($some_pages | length) == ($pages | length) then empty
     else "H1 pages outside the tree of pages" end)
