/* What libjpeg-turbo says of itself when asked. */
#define JVERSION "6b  27-Mar-1998"
#define JCOPYRIGHT ""
#define JCOPYRIGHT_SHORT ""
