"""A merchant's bill as UBL after EN 16931, by hand, with prefixes of its own: two lines, a price for ten, carriage, a rebate."""

from __future__ import annotations

from typing import Final

BILL: Final = """<?xml version="1.0" encoding="UTF-8"?>
<u:Invoice xmlns:u="urn:oasis:names:specification:ubl:schema:xsd:Invoice-2"
 xmlns:a="urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2"
 xmlns:b="urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2">
 <b:CustomizationID>urn:cen.eu:en16931:2017</b:CustomizationID>
 <b:ID>M-7731</b:ID><b:IssueDate>2026-12-03</b:IssueDate><b:DueDate>2026-12-31</b:DueDate>
 <b:InvoiceTypeCode>380</b:InvoiceTypeCode><b:DocumentCurrencyCode>GBP</b:DocumentCurrencyCode>
 <a:OrderReference><b:ID>ORDER</b:ID></a:OrderReference>
 <a:AccountingSupplierParty><a:Party><a:PartyName><b:Name>trading name</b:Name></a:PartyName>
  <a:PostalAddress><a:Country><b:IdentificationCode>GB</b:IdentificationCode></a:Country></a:PostalAddress>
  <a:PartyTaxScheme><b:CompanyID>GB000000000</b:CompanyID><a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme></a:PartyTaxScheme>
  <a:PartyLegalEntity><b:RegistrationName>SELLER</b:RegistrationName></a:PartyLegalEntity></a:Party></a:AccountingSupplierParty>
 <a:AccountingCustomerParty><a:Party>
  <a:PostalAddress><a:Country><b:IdentificationCode>GB</b:IdentificationCode></a:Country></a:PostalAddress>
  <a:PartyLegalEntity><b:RegistrationName>M. Tarrowby</b:RegistrationName></a:PartyLegalEntity></a:Party></a:AccountingCustomerParty>
 <a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator><b:AllowanceChargeReason>Carriage</b:AllowanceChargeReason>
  <b:Amount currencyID="GBP">12.00</b:Amount>
  <a:TaxCategory><b:ID>S</b:ID><b:Percent>20</b:Percent><a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme></a:TaxCategory></a:AllowanceCharge>
 <a:AllowanceCharge><b:ChargeIndicator>false</b:ChargeIndicator><b:AllowanceChargeReason>Rebate</b:AllowanceChargeReason>
  <b:Amount currencyID="GBP">2.50</b:Amount>
  <a:TaxCategory><b:ID>S</b:ID><b:Percent>20.00</b:Percent><a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme></a:TaxCategory></a:AllowanceCharge>
 <a:TaxTotal><b:TaxAmount currencyID="GBP">8.70</b:TaxAmount>
  <a:TaxSubtotal><b:TaxableAmount currencyID="GBP">43.50</b:TaxableAmount><b:TaxAmount currencyID="GBP">8.70</b:TaxAmount>
   <a:TaxCategory><b:ID>S</b:ID><b:Percent>20</b:Percent><a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme></a:TaxCategory></a:TaxSubtotal>
  <a:TaxSubtotal><b:TaxableAmount currencyID="GBP">5.00</b:TaxableAmount><b:TaxAmount currencyID="GBP">0.00</b:TaxAmount>
   <a:TaxCategory><b:ID>Z</b:ID><b:Percent>0</b:Percent><a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme></a:TaxCategory></a:TaxSubtotal></a:TaxTotal>
 <a:LegalMonetaryTotal><b:LineExtensionAmount currencyID="GBP">39.00</b:LineExtensionAmount>
  <b:TaxExclusiveAmount currencyID="GBP">48.50</b:TaxExclusiveAmount><b:TaxInclusiveAmount currencyID="GBP">57.20</b:TaxInclusiveAmount>
  <b:AllowanceTotalAmount currencyID="GBP">2.50</b:AllowanceTotalAmount><b:ChargeTotalAmount currencyID="GBP">12.00</b:ChargeTotalAmount>
  <b:PrepaidAmount currencyID="GBP">7.20</b:PrepaidAmount><b:PayableAmount currencyID="GBP">50.00</b:PayableAmount></a:LegalMonetaryTotal>
 <a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode="C62">20</b:InvoicedQuantity>
  <b:LineExtensionAmount currencyID="GBP">34.00</b:LineExtensionAmount>
  <a:AllowanceCharge><b:ChargeIndicator>false</b:ChargeIndicator><b:AllowanceChargeReason>Line rebate</b:AllowanceChargeReason>
   <b:Amount currencyID="GBP">1.00</b:Amount></a:AllowanceCharge>
  <a:Item><b:Name>Sound pad</b:Name><a:SellersItemIdentification><b:ID>CODE</b:ID></a:SellersItemIdentification>
   <a:ClassifiedTaxCategory><b:ID>S</b:ID><b:Percent>20</b:Percent><a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme></a:ClassifiedTaxCategory></a:Item>
  <a:Price><b:PriceAmount currencyID="GBP">17.50</b:PriceAmount><b:BaseQuantity unitCode="C62">10</b:BaseQuantity></a:Price></a:InvoiceLine>
 <a:InvoiceLine><b:ID>2</b:ID><b:InvoicedQuantity unitCode="C62">1</b:InvoicedQuantity>
  <b:LineExtensionAmount currencyID="GBP">5.00</b:LineExtensionAmount>
  <a:Item><b:Name>Safety leaflet</b:Name><a:SellersItemIdentification><b:ID>LEAF</b:ID></a:SellersItemIdentification>
   <a:ClassifiedTaxCategory><b:ID>Z</b:ID><b:Percent>0</b:Percent><a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme></a:ClassifiedTaxCategory></a:Item>
  <a:Price><b:PriceAmount currencyID="GBP">5</b:PriceAmount></a:Price></a:InvoiceLine>
</u:Invoice>
"""


def bill(order: str = "101-1", seller: str = "Carrowdene", code: str = "PAD") -> str:
    """The bill for an order, from a seller."""
    return BILL.replace("ORDER", order).replace("SELLER", seller).replace("CODE", code)
