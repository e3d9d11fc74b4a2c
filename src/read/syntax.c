/* The parser's complaints in a designer's words. The parser's own texts speak
 * of its functions and of the standard's grammar, which helps nobody to mend a
 * pattern. May assume nothing of the source but that it ends with a NUL. */
#include "reader.h"

#include <libxml/xmlerror.h>

/* What stands for itself, whatever is found there. The numbers are those of
 * libxml2's own header. */
static const struct {
    int code;
    const char *words;
} plain_words[] = {
    {XML_ERR_ATTRIBUTE_NOT_STARTED, "a value must stand in quotes"},
    {XML_ERR_ATTRIBUTE_NOT_FINISHED, "a value is not closed with its quote"},
    {XML_ERR_LT_IN_ATTRIBUTE,
     "a value is not closed: it runs into the next `<`"},
    {XML_ERR_SPACE_REQUIRED,
     "a blank is missing, or a value closed too early at a quote"},
    {XML_ERR_EQUAL_REQUIRED, "the sign = is missing behind a name"},
    {XML_ERR_GT_REQUIRED, "a tag does not end with `>`"},
    {XML_ERR_LTSLASH_REQUIRED, "a closing tag is broken off"},
    {XML_NS_ERR_QNAME, "a colon stands in a name where none can"},
    {XML_NS_ERR_UNDEFINED_NAMESPACE,
     "a name has a colon in it, and no name of a pattern has one"},
    {XML_WAR_NS_URI, "the namespace is not urn:seamwright:pattern:1"},
    {XML_WAR_NS_URI_RELATIVE, "the namespace is not urn:seamwright:pattern:1"},
    {XML_ERR_DOCUMENT_END, "there is more behind the end of the pattern"},
    {XML_ERR_DOCUMENT_EMPTY, "the file holds no element"},
    {XML_ERR_ENTITYREF_SEMICOL_MISSING, "the character & stands alone"},
    {XML_ERR_INVALID_CHAR, "a control character has no place in a pattern"},
    {XML_ERR_INVALID_CHARREF, "a reference names no character"},
    {XML_ERR_INVALID_DEC_CHARREF, "a reference names no character"},
    {XML_ERR_INVALID_HEX_CHARREF, "a reference names no character"},
    {XML_ERR_HYPHEN_IN_COMMENT, "a comment holds two hyphens in a row"},
    {XML_ERR_COMMENT_NOT_FINISHED, "a comment is not closed with `-->`"},
    {XML_ERR_CDATA_NOT_FINISHED, "a CDATA section is not closed with `]]>`"},
    {XML_ERR_MISPLACED_CDATA_END, "the characters ]]> stand in a text"},
    {XML_ERR_PI_NOT_STARTED, "the characters <? stand without a name"},
    {XML_ERR_PI_NOT_FINISHED, "an instruction is not closed with `?>`"},
    {XML_ERR_RESERVED_XML_NAME,
     "the XML declaration must be the very first thing in the file"},
    {XML_ERR_XMLDECL_NOT_FINISHED,
     "the XML declaration does not end with `?>`"},
    {XML_ERR_XMLDECL_NOT_STARTED, "the XML declaration is broken off"},
    {XML_ERR_VERSION_MISSING, "the XML declaration lacks version=\"1.0\""},
    {XML_ERR_STRING_NOT_STARTED, "a value must stand in quotes"},
    {XML_ERR_STRING_NOT_CLOSED, "a value is not closed with its quote"},
    {XML_ERR_ENCODING_NAME, "the XML declaration names no encoding"},
    {XML_ERR_STANDALONE_VALUE, "standalone is neither yes nor no"},
};

const char *syntax_words(int code, const char *bytes, size_t at)
{
    /* One number for three mistakes; the bytes tell them apart. */
    if (code == XML_ERR_NAME_REQUIRED && bytes[at] == '<')
        return "the tag before this one does not end with `>`";
    if (code == XML_ERR_NAME_REQUIRED && at > 0 && bytes[at - 1] == '<')
        return "the character < stands where no tag begins";
    if (code == XML_ERR_NAME_REQUIRED && at > 0 && bytes[at - 1] == '&')
        return "the character & stands alone";
    if (code == XML_ERR_NAME_REQUIRED)
        return "there is no name where one is expected";
    for (size_t i = 0; i < sizeof plain_words / sizeof plain_words[0]; i++)
        if (plain_words[i].code == code)
            return plain_words[i].words;
    return NULL;
}

const char *syntax_help(int code, const char *bytes, size_t at)
{
    if (code == XML_ERR_UNDECLARED_ENTITY ||
        code == XML_ERR_ENTITYREF_SEMICOL_MISSING)
        return "write &amp; for the character &";
    if (code == XML_ERR_NAME_REQUIRED && at > 0 && bytes[at - 1] == '&')
        return "write &amp; for the character &";
    if (code == XML_ERR_NAME_REQUIRED && at > 0 && bytes[at - 1] == '<')
        return "write &lt; for the character <";
    return NULL;
}
