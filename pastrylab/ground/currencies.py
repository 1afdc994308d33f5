"""Currencies: their codes, how many decimals each has, and the signs and words people write for them."""

# ISO 4217: alphabetic codes, and the currencies whose smallest unit is not a hundredth.
CURRENCIES = frozenset(
    """AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD
    CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD
    GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT
    LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR
    NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP
    STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF
    XPF YER ZAR ZMW""".split()
)
PLACES = dict.fromkeys("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF".split(), 0)
PLACES |= dict.fromkeys("BHD IQD JOD KWD LYD OMR TND".split(), 3)
SYMBOLS = {
    "$": "USD",
    "US$": "USD",
    "€": "EUR",
    "£": "GBP",
    "C$": "CAD",
    "CA$": "CAD",
    "A$": "AUD",
    "AU$": "AUD",
}
SYMBOLS |= {
    "NZ$": "NZD",
    "HK$": "HKD",
    "R$": "BRL",
    "₹": "INR",
    "₩": "KRW",
    "₺": "TRY",
    "₪": "ILS",
    "zł": "PLN",
}
WORDS = {"dollar": "USD", "dollars": "USD", "us dollar": "USD", "us dollars": "USD", "euro": "EUR", "euros": "EUR"}
WORDS |= {"pound sterling": "GBP", "pounds sterling": "GBP", "yen": "JPY", "cent": "¢", "cents": "¢"}
# Codes people write small. No more of them: "3 cup", "2 all" and "4 pen" are no money.
WORDS |= {
    code.casefold(): code
    for code in "USD EUR GBP CHF CAD AUD NZD JPY SEK NOK DKK PLN CZK HUF INR MXN BRL ZAR SGD HKD CNY".split()
}
SHOWN = {"USD": "$", "EUR": "€", "GBP": "£"}
